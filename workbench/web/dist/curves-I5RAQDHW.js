import{b as a,c as b}from"./chunk-Y3ZCRUJ5.js";import"./chunk-I2K2PCT6.js";import"./chunk-OQ6VA63E.js";export{b as axes,a as default};
