import{b as a,c as b}from"./chunk-RPDLUDXV.js";import"./chunk-6L5Q7NKX.js";import"./chunk-PTQ26NYO.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};
