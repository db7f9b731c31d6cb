import{b as a,c as b}from"./chunk-YIGQUGJ4.js";import"./chunk-I2K2PCT6.js";import"./chunk-C6NCZ4UV.js";export{b as axes,a as default};
