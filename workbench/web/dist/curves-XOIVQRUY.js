import{b as a,c as b}from"./chunk-STNK6FYQ.js";import"./chunk-6L5Q7NKX.js";import"./chunk-F2IRZBQM.js";export{b as axes,a as default};
