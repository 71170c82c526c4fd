# Fit time of ordinal::clmm on a csv file: Rscript clmm.R FILE FORMULA RUNS
suppressPackageStartupMessages(library(ordinal))
args <- commandArgs(trailingOnly = TRUE)
data <- read.csv(args[1], comment.char = "#", stringsAsFactors = TRUE)
for (name in setdiff(names(data), "response")) data[[name]] <- factor(data[[name]], levels = unique(data[[name]]))
data$rating <- factor(data$rating, ordered = TRUE, levels = sort(as.integer(levels(data$rating))))
times <- numeric(0)
for (run in seq_len(as.integer(args[3]))) {
  times <- c(times, system.time(found <- clmm(as.formula(args[2]), data = data))[["elapsed"]])
}
cat(median(times), as.numeric(logLik(found)), "\n")
