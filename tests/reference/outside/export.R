# What R's open data sets and an independent program say, as files the tests read. Usage: Rscript export.R FOLDER
# Data: ks::tempb (daily extremes, Badajoz), datasets::nottem, datasets::ChickWeight, geepack::dietox. Crowder 1978, Applied
# Statistics 27:34-37, typed in. Fits by lm, acf and VGAM, none of them ours.
folder <- commandArgs(trailingOnly = TRUE)[1]
dir.create(folder, showWarnings = FALSE, recursive = TRUE)
put <- function(data, name) write.csv(data, file.path(folder, name), row.names = FALSE, quote = FALSE)

suppressMessages(library(ks))
data(tempb)
d <- tempb
put(data.frame(date = sprintf("%04d-%02d-%02d", d$year, d$month, d$day), "tmax [degC]" = d$tmax, "tmin [degC]" = d$tmin,
               check.names = FALSE), "badajoz.csv")
d <- d[!(d$month == 2 & d$day == 29), ]
length_of <- c(0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)
d$doy <- length_of[d$month] + d$day
d$mean <- (d$tmax + d$tmin) / 2
fit <- lm(mean ~ cos(2 * pi * doy / 365) + sin(2 * pi * doy / 365) + cos(4 * pi * doy / 365) + sin(4 * pi * doy / 365), data = d)
r <- residuals(fit)
next_day <- diff(as.integer(as.Date(sprintf("%04d-%02d-%02d", d$year, d$month, d$day)))) == 1
lag1 <- mean((r[-1] * r[-length(r)])[next_day]) / mean(r^2)
range_fit <- lm(I(tmax - tmin) ~ cos(2 * pi * doy / 365) + sin(2 * pi * doy / 365) + cos(4 * pi * doy / 365) + sin(4 * pi * doy / 365), data = d)
amplitude <- function(f, at = 2:3) sqrt(sum(coef(f)[at]^2))
peak <- (atan2(coef(fit)[3], coef(fit)[2]) * 365 / (2 * pi)) %% 365
wide <- residuals(range_fit)
following <- function(lead) lm(wide ~ 0 + r + I(r * cos(2 * pi * (d$doy - peak + lead) / 365)) + I(r * cos(4 * pi * (d$doy - peak + lead) / 365)))
lead <- optimize(function(lead) deviance(following(lead)), c(-60, 60), tol = 1e-4)$minimum
follow <- following(lead)
summer <- cos(2 * pi * (d$doy - peak + lead) / 365)
half_year <- cos(4 * pi * (d$doy - peak + lead) / 365)
left <- residuals(follow)
spread <- coef(lm(abs(left) ~ summer + half_year))
z <- left / (spread[1] + spread[2] * summer + spread[3] * half_year)
spread <- spread * sqrt(mean(z^2))
season <- lm(r^2 ~ cos(2 * pi * doy / 365) + sin(2 * pi * doy / 365) + cos(4 * pi * doy / 365) + sin(4 * pi * doy / 365), data = d)
# Day after day with holes, for correlations further apart.
on <- (d$year - min(d$year)) * 365 + d$doy
holes <- rep(NA, max(on))
holes[on] <- r
apart <- function(k) mean(holes[-seq_len(k)] * holes[seq_len(length(holes) - k)], na.rm = TRUE) / mean(holes^2, na.rm = TRUE)
near <- mean(sapply(15:25, apart))
slow_memory <- (mean(sapply(50:70, apart)) / near)^(1 / 40)
share <- near / slow_memory^20
fast <- (lag1 - share * slow_memory) / (1 - share)
two_days <- ((apart(2) - share * slow_memory^2) / (1 - share) - fast^2) / (1 - fast^2)
months <- tapply(r, factor(sprintf("%d %d", d$year, d$month), levels = unique(sprintf("%d %d", d$year, d$month))), mean)
say <- data.frame(
  name = c("range_follow", "range_follow_summer", "range_follow_half_year", "range_follow_lead", "range_sd", "range_sd_summer", "range_sd_half_year", "range_memory", "mean",
           "amplitude", "half_year", "sd", "lag1", "range_mean", "range_amplitude", "range_half_year", "anomaly_season", "anomaly_half_year", "two_days",
           "month_sd", "month_lag1"),
  value = c(coef(follow), lead, spread, mean((z[-1] * z[-length(z)])[next_day]) / mean(z^2), coef(fit)[1], amplitude(fit),
            amplitude(fit, 4:5), summary(fit)$sigma, lag1, coef(range_fit)[1], amplitude(range_fit), amplitude(range_fit, 4:5),
            amplitude(season) / coef(season)[1], amplitude(season, 4:5) / coef(season)[1], two_days, sd(months), acf(months, plot = FALSE)$acf[2]))

m <- data.frame(y = (as.numeric(nottem) - 32) / 1.8, month = rep(1:12, 20))
middle <- length_of + (c(31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31) + 1) / 2
m$doy <- middle[m$month]
mf <- lm(y ~ cos(2 * pi * doy / 365) + sin(2 * pi * doy / 365), data = m)
say <- rbind(say, data.frame(name = c("nottem_mean", "nottem_amplitude", "nottem_sd", "nottem_lag1"),
  value = c(mean(m$y), amplitude(mf), summary(mf)$sigma, acf(residuals(mf), plot = FALSE)$acf[2])))
put(data.frame(month = 1:12, celsius = tapply(m$y, m$month, mean)), "nottem.csv")

suppressMessages(library(VGAM))
germinated <- c(10, 23, 23, 26, 17, 5, 53, 55, 32, 46, 10, 8, 10, 8, 23, 0, 3, 22, 15, 32, 3)
sown <- c(39, 62, 81, 51, 39, 6, 74, 72, 51, 79, 13, 16, 30, 28, 45, 4, 12, 41, 30, 51, 7)
bb <- vglm(cbind(germinated, sown - germinated) ~ 1, betabinomial(zero = 2))
mu <- plogis(coef(bb)[1]); rho <- plogis(coef(bb)[2]); se <- sqrt(diag(vcov(bb)))
say <- rbind(say, data.frame(name = c("mu", "rho", "loglik", "at_given"),
  value = c(mu, rho, sum(dbetabinom(germinated, sown, mu, rho, log = TRUE)),
            sum(dbetabinom(germinated, sown, 0.4, 0.05, log = TRUE)))))
put(data.frame(name = say$name, value = format(say$value, digits = 12)), "said.csv")

put(with(ChickWeight, data.frame(animal = as.integer(as.character(Chick)), day = Time, kg = weight / 1000, diet = Diet)), "chicks.csv")
data(dietox, package = "geepack")
put(with(dietox, data.frame(animal = as.integer(factor(Pig)), day = 7 * Time, kg = Weight, diet = 1)), "pigs.csv")

# Continuous ranked probability scores by their definition, the integral of (F(x) - 1{x >= y})^2, in pieces between the steps.
piecewise <- function(F, at) sum(mapply(function(a, b) integrate(function(x) F(x)^2, a, b, rel.tol = 1e-11)$value, head(at, -1), tail(at, -1)))
normal <- expand.grid(mean = c(0, 4.4), sd = c(0.05, 1, 3), y = c(-1, 0.3, 4.4, 6))
normal$score <- mapply(function(m, s, y) {
  low <- sort(c(y, m + s * c(-12, -3, 0, 3, 12)))
  piecewise(function(x) pnorm(x, m, s) - (x >= y), low)
}, normal$mean, normal$sd, normal$y)
put(normal, "crps_normal.csv")
sample <- c(3.1, 4.4, 4.7, 2.2, 5.9, 4.4, 6.3)
steps <- ecdf(sample)
by_sample <- data.frame(y = c(1, 4.4, 4.5, 7.5))
# Without the sample's bias: less half of the mean difference of two draws over their number.
by_sample$score <- sapply(by_sample$y, function(y) {
  at <- sort(unique(c(sample, y)))
  sum(diff(at) * (steps(head(at, -1)) - (head(at, -1) >= y))^2) - mean(dist(sample)) / (2 * length(sample))
})
put(by_sample, "crps_sample.csv")
