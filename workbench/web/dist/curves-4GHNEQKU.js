import{b as a,c as b}from"./chunk-RXJT7VWR.js";import"./chunk-6L5Q7NKX.js";import"./chunk-WEJSMPFS.js";export{b as axes,a as default};
