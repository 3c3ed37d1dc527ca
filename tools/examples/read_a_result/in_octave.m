% The same in Octave (Debian: octave octave-netcdf). Usage: octave-cli in_octave.m RESULT.h5
pkg load netcdf
result = argv(){end};
hole = double(ncread(result, "/layers/hole"));
layer = double(ncread(result, "/layers/layer"));
bottom = ncread(result, "/layers/bottom");
hottest = ncread(result, "/layers/hottest_flat") - 273.15;
wear = 1000 * ncread(result, "/layers/greatest_wear_gain");
printf("hole layer  bottom, m  hottest flat, degC  greatest wear, mm\n");
printf("%4d %5d %10.2f %19.1f %18.3f\n", [hole, layer, bottom, hottest, wear]');
% Octave turns axes round: a row for each cutter, a column for each time.
[hottest, cutter] = max(max(ncread(result, "/history/flat_temperature"), [], 2));
printf("hottest row of the history: %.1f degC, cutter %d\n", hottest - 273.15, cutter);
