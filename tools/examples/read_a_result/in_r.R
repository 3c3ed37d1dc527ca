# The same in R (Debian: r-cran-hdf5r). Usage: Rscript in_r.R RESULT.h5
library(hdf5r)
result <- H5File$new(commandArgs(trailingOnly = TRUE)[1], mode = "r")
layers <- result[["layers"]]
read <- function(name) layers[[name]]$read()
cat("hole layer  bottom, m  hottest flat, degC  greatest wear, mm\n")
cat(sprintf("%4d %5d %10.2f %19.1f %18.3f\n", read("hole"), read("layer"), read("bottom"),
            read("hottest_flat") - 273.15, 1000 * read("greatest_wear_gain")), sep = "")
# R turns axes round: a row for each cutter, a column for each time.
flats <- result[["history/flat_temperature"]]$read()
hottest <- apply(flats, 1, max)
cat(sprintf("hottest row of the history: %.1f degC, cutter %d\n", max(hottest) - 273.15, which.max(hottest)))
result$close_all()
