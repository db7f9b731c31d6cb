import{b as a,c as b}from"./chunk-ZXJU22IO.js";import"./chunk-I2K2PCT6.js";import"./chunk-XAX6NEYJ.js";export{b as axes,a as default};
