package panelbook.app.planning;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.forecast.DailyUse;
import panelbook.colorimetry.forecast.Trend;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastValue;
import panelbook.wire.PresetForecast;
import panelbook.wire.SegmentStart;

/** Forecasts as the contract shows them, with their sentences. */
final class ForecastViews {

    private static final int VALUES = 41;

    private ForecastViews() {}

    static PresetForecast of(Prospect prospect, Instant now) {
        var line = prospect.line();
        return new PresetForecast(
                line.presetId(),
                line.path(),
                now,
                line.toleranceSet(),
                prospect.use().map(DailyUse::hoursPerDay).orElse(null),
                prospect.runsWithoutHours(),
                prospect.outlooks().stream()
                        .map(outlook -> figure(prospect, outlook))
                        .toList());
    }

    private static FigureForecast figure(Prospect prospect, Outlook outlook) {
        var from = outlook.from();
        return new FigureForecast(
                outlook.metric(),
                outlook.luminance() ? "cd/m²" : "u′v′",
                outlook.answer(),
                explanation(prospect, outlook),
                outlook.reference(),
                outlook.limit(),
                from == null ? null : from.start(),
                from == null ? 0 : from.readings(),
                outlook.points(),
                fit(outlook),
                crossing(prospect, outlook, outlook.expectedHours()),
                crossing(prospect, outlook, outlook.earliestHours()),
                outlook.horizonHours());
    }

    private static @Nullable ForecastCrossing crossing(Prospect prospect, Outlook outlook, @Nullable Double hours) {
        return hours == null || outlook.from() == null
                ? null
                : new ForecastCrossing(hours, prospect.at(outlook.from(), hours));
    }

    /** From the first reading to a little after the crossing, as far as anything may be said. */
    private static List<ForecastValue> fit(Outlook outlook) {
        var from = outlook.from();
        var trend = outlook.trend();
        if (trend == null || from == null) {
            return List.of();
        }
        var end = end(outlook, from);
        var values = new ArrayList<ForecastValue>();
        for (var i = 0; i < VALUES; i++) {
            var hours = from.firstHours() + (end - from.firstHours()) * i / (VALUES - 1);
            values.add(value(outlook, trend, hours));
        }
        return values;
    }

    private static double end(Outlook outlook, Outlook.From from) {
        var observed = from.lastHours() - from.firstHours();
        var crossing = outlook.expectedHours() == null ? outlook.earliestHours() : outlook.expectedHours();
        var end = crossing == null ? from.lastHours() + observed / 2 : crossing + (crossing - from.firstHours()) / 10;
        return Math.min(
                Math.max(end, from.lastHours()),
                outlook.horizonHours() == null ? Double.POSITIVE_INFINITY : outlook.horizonHours());
    }

    private static ForecastValue value(Outlook outlook, Trend trend, double hours) {
        return outlook.luminance()
                ? new ForecastValue(
                        hours, Math.exp(trend.at(hours)), Math.exp(trend.low(hours)), Math.exp(trend.high(hours)))
                : new ForecastValue(hours, trend.at(hours), trend.low(hours), trend.high(hours));
    }

    /** The answer in words. */
    static String explanation(Prospect prospect, Outlook outlook) {
        var what = outlook.luminance() ? "Peak luminance" : "White";
        return switch (outlook.answer()) {
            case NO_LIMIT, NO_REFERENCE, TOO_FEW_READINGS -> "No forecast: " + outlook.why() + afterStep(outlook) + ".";
            case FLAT ->
                what + " shows no movement towards its limit that can be told from none; " + rests(prospect, outlook)
                        + ".";
            case BEYOND_ALREADY ->
                what + " is beyond its limit of " + limit(outlook) + " already; " + rests(prospect, outlook) + ".";
            case NOT_WITHIN_HORIZON ->
                what + " keeps its limit of " + limit(outlook) + " up to "
                        + Say.fixed(Objects.requireNonNull(outlook.horizonHours()), 0)
                        + " panel hours with 90 %; nothing is said beyond; " + rests(prospect, outlook) + ".";
            case CROSSES -> crossing(prospect, outlook, what);
        };
    }

    private static String crossing(Prospect prospect, Outlook outlook, String what) {
        var expected = outlook.expectedHours() == null
                ? "later than " + Say.fixed(Objects.requireNonNull(outlook.horizonHours()), 0)
                        + " panel hours as expected, beyond which nothing is said"
                : "at " + hours(prospect, outlook, outlook.expectedHours()) + " as expected";
        var earliest = hours(prospect, outlook, Objects.requireNonNull(outlook.earliestHours()));
        var noDates = prospect.use().isEmpty()
                ? " There are no dates, since the counter values do not tell how many hours a day it runs."
                : "";
        return what + " crosses its limit of " + limit(outlook) + " " + expected + ", and not before " + earliest
                + " with 90 %; " + rests(prospect, outlook) + "." + noDates;
    }

    private static String hours(Prospect prospect, Outlook outlook, double hours) {
        var at = prospect.at(Objects.requireNonNull(outlook.from()), hours);
        return Say.fixed(hours, 0) + " panel hours"
                + (at == null ? "" : " (" + Say.day(at, prospect.line().zone()) + ")");
    }

    private static String limit(Outlook outlook) {
        var limit = Objects.requireNonNull(outlook.limit());
        return outlook.luminance()
                ? Say.fixed(limit, 1) + " cd/m²"
                : Say.fixed(limit, 4) + " u′v′ from where it was left";
    }

    private static String rests(Prospect prospect, Outlook outlook) {
        var from = Objects.requireNonNull(outlook.from());
        return "it rests on " + from.readings() + " readings from "
                + Say.day(from.firstAt(), prospect.line().zone()) + " to "
                + Say.day(from.lastAt(), prospect.line().zone()) + afterStep(outlook);
    }

    private static String afterStep(Outlook outlook) {
        var from = outlook.from();
        return from != null && from.start() == SegmentStart.STEP
                ? ", since it stepped just before the first of them and what lies before says nothing about its ageing now"
                : "";
    }
}
