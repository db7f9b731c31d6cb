import{b as a,c as b}from"./chunk-BK2G3WCZ.js";import"./chunk-I2K2PCT6.js";import"./chunk-QMIBCBS3.js";export{b as axes,a as default};
