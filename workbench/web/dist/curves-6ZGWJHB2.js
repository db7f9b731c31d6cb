import{b as a,c as b}from"./chunk-K5SN5LFV.js";import"./chunk-NXNM36TC.js";import"./chunk-HH54WJWC.js";export{b as axes,a as default};
