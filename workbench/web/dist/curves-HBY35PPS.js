import{b as a,c as b}from"./chunk-PVCTQQ74.js";import"./chunk-I2K2PCT6.js";import"./chunk-HNUPGS7I.js";export{b as axes,a as default};
