import{b as a,c as b}from"./chunk-ZQRXYBFN.js";import"./chunk-I2K2PCT6.js";import"./chunk-4FG2RDWP.js";export{b as axes,a as default};
