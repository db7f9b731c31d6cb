var a=["#00306f","#575d6d","#a59c74","#ffea46"];export{a};
