import{b as a,c as b}from"./chunk-VK2MWD7S.js";import"./chunk-6L5Q7NKX.js";import"./chunk-MKDFOMH2.js";import"./chunk-WOT6VMZA.js";export{b as axes,a as default};
