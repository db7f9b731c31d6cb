import{b as a,c as b}from"./chunk-VRA7VQTR.js";import"./chunk-I2K2PCT6.js";import"./chunk-7FORNGAB.js";export{b as axes,a as default};
