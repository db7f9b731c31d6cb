import{b as a,c as b}from"./chunk-NJCIZ3ZH.js";import"./chunk-I2K2PCT6.js";import"./chunk-RHJOA7IL.js";export{b as axes,a as default};
