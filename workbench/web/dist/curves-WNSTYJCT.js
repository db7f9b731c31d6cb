import{b as a,c as b}from"./chunk-4KNC6XG6.js";import"./chunk-6L5Q7NKX.js";import"./chunk-6G6MVWRR.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};
