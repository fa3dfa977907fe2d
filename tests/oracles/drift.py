"""Slopes of readings of years, and their intervals, by SciPy: tests/reference/drift.csv."""
import numpy as np
from scipy.stats import theilslopes
rng=np.random.default_rng(11)
print("# What | oracle: SciPy 1.10.1 stats.theilslopes(y, x, 0.95) by tests/oracles/drift.py; days since the first, values; slope and ends of its interval per year of 365.25 days")
print("days,values,slope_per_year,low_per_year,high_per_year,source")
for n,slope,noise,quant in [(8,3,1,0),(12,-2,2,0),(20,0.5,1,1),(30,0,1,0.5),(15,4,3,0),(10,1,0.3,0.5)]:
    x=np.sort(rng.integers(0,2500,n)).astype(float); x-=x[0]
    if n==20: x[5]=x[4]; x[11]=x[10]
    y=60+slope*x/365.25+noise*rng.standard_normal(n)
    if n==12: y[3]+=40
    if quant: y=np.round(y/quant)*quant
    y=np.round(y,4)
    r=theilslopes(y,x,0.95)
    print(" ".join("%g"%v for v in x)+","+" ".join("%g"%v for v in y)+",%.12g,%.12g,%.12g,OWN oracles/drift.py"%(r[0]*365.25,r[2]*365.25,r[3]*365.25))
