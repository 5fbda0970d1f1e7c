#!/usr/bin/env Rscript
# Result files in R: names, units, dates, texts, numbers. usage: test_r.R FOLDER
suppressWarnings(library(ncdf4))
folder <- commandArgs(trailingOnly = TRUE)[1]

for (name in c("year", "size")) {
  file <- nc_open(file.path(folder, paste0(name, ".h5")))
  stopifnot(ncatt_get(file, 0, "file_type")$value == "rackwright result",
            ncatt_get(file, 0, "title")$value == "Stone barn on a dry hillside")

  served <- ncvar_get(file, "daily/served")  # R turns dimensions round: quantile first
  stopifnot(identical(dim(served), c(5L, 365L)),
            ncatt_get(file, "daily/served", "units")$value == "kg",
            nchar(ncatt_get(file, "daily/served", "long_name")$value) > 10,
            all(abs(ncvar_get(file, "daily/quantile") - c(0.05, 0.25, 0.5, 0.75, 0.95)) < 1e-12),
            all(diff(served) >= 0))
  unit <- file$dim[["daily/day"]]$units
  dates <- as.Date(file$dim[["daily/day"]]$vals, origin = sub("days since ", "", unit))
  stopifnot(dates[1] == as.Date("2026-03-01"), dates[365] == as.Date("2027-02-28"))

  quantity <- ncvar_get(file, "summary/quantity")
  mean_of <- setNames(ncvar_get(file, "summary/mean"), quantity)
  cost <- ncvar_get(file, "replication/cost_total")
  stopifnot(is.character(quantity), "success" %in% quantity,
            abs(mean(cost) - mean_of[["cost_total"]]) < 1e-9 * mean(cost),
            length(cost) == file$dim[["replication/replication"]]$len)
  # The interval of the mean is Student's.
  ends <- unname(t.test(cost)$conf.int[1:2])
  at <- match("cost_total", quantity)
  stopifnot(abs(ends - c(ncvar_get(file, "summary/low")[at], ncvar_get(file, "summary/high")[at])) < 1e-6 * mean(cost))
  nc_close(file)
}

file <- nc_open(file.path(folder, "size.h5"))
verdict <- ncvar_get(file, "design/verdict")
value <- ncvar_get(file, "design/value")
stopifnot(verdict[ncvar_get(file, "design/chosen") + 1] == "chosen",
          identical(dim(value), c(3L, length(verdict))),
          all(value[2, ] %in% c("4", "5")))
# The interval of the chance is the score interval.
n <- ncvar_get(file, "design/replications")
share <- ncvar_get(file, "design/success")
for (i in which(n > 0)) {
  ends <- suppressWarnings(prop.test(round(share[i] * n[i]), n[i], correct = FALSE))$conf.int
  stopifnot(abs(ends[1] - ncvar_get(file, "design/success_low")[i]) < 1e-6,
            abs(ends[2] - ncvar_get(file, "design/success_high")[i]) < 1e-6)
}
cat("R reads both files:", length(verdict), "designs\n")
