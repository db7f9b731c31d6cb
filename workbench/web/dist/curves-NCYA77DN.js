import{b as a,c as b}from"./chunk-BMQU4B2U.js";import"./chunk-I2K2PCT6.js";import"./chunk-PKFRWCKK.js";export{b as axes,a as default};
