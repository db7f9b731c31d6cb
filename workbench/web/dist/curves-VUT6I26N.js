import{b as a,c as b}from"./chunk-ESJ452VJ.js";import"./chunk-I2K2PCT6.js";import"./chunk-3QYZ5XJN.js";export{b as axes,a as default};
