import{b as a,c as b}from"./chunk-QDCH6OVB.js";import"./chunk-6L5Q7NKX.js";import"./chunk-SAFTACE6.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};
