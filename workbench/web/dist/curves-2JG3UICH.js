import{b as a,c as b}from"./chunk-YKOZJO3J.js";import"./chunk-6L5Q7NKX.js";import"./chunk-J7IFVAJX.js";export{b as axes,a as default};
