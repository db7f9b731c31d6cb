import{b as a,c as b}from"./chunk-C5JHXTQ4.js";import"./chunk-I2K2PCT6.js";import"./chunk-HOSDUCSH.js";export{b as axes,a as default};
