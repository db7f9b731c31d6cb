import{b as a,c as b}from"./chunk-X3HDA2TU.js";import"./chunk-6L5Q7NKX.js";import"./chunk-TUJVQIYU.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};
