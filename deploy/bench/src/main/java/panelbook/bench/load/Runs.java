package panelbook.bench.load;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;

/** Runs of a simulated display, as the bodies of uploads and as rows of COPY. */
final class Runs {
    private static final Target TARGET = new Target(
            RgbSpace.P3_D65, new Eotf.Pq(), new CodeValues(SignalRange.FULL, 10), new LuminanceRange(0.0001, 1000));

    private final List<Reading> readings;
    private final String readingsJson;

    /** A run of so many readings. */
    Runs(int patches) {
        var random = new Random(patches);
        readings = SimulatedDisplay.builder(Primaries.emissive())
                .leak(0.0001)
                .build()
                .measure(TARGET, Patches.many(TARGET.codes(), patches, random), 0, Instrument.COLORIMETER, random);
        readingsJson = json();
    }

    private String json() {
        var json = new StringBuilder("[");
        for (var reading : readings) {
            var patch = reading.patch();
            var xyz = reading.xyz();
            json.append(json.length() > 1 ? "," : "").append("{\"red\":").append(patch.red());
            json.append(",\"green\":")
                    .append(patch.green())
                    .append(",\"blue\":")
                    .append(patch.blue());
            json.append(",\"x\":").append(xyz.x()).append(",\"y\":").append(xyz.y());
            json.append(",\"z\":").append(xyz.z()).append('}');
        }
        return json.append(']').toString();
    }

    /** The body of an upload. */
    String upload(UUID id, String presetId, String instrumentId, String purpose, int minutesAgo) {
        return "{\"id\":\"" + id + "\",\"presetId\":\"" + presetId + "\",\"instrumentId\":\"" + instrumentId
                + "\",\"purpose\":\"" + purpose + "\",\"operator\":\"load\",\"takenAt\":\""
                + Instant.now().truncatedTo(ChronoUnit.SECONDS).minus(minutesAgo, ChronoUnit.MINUTES)
                + "\",\"minutesSincePowerOn\":60,\"baselineReason\":"
                + (purpose.equals("as-left") ? "\"it is a benchmark\"" : "null")
                + ",\"readings\":" + readingsJson + "}";
    }

    /** The same readings as the text form of COPY, in the order of the table's columns. */
    byte[] rows(UUID runId) {
        var text = new StringBuilder();
        for (var i = 0; i < readings.size(); i++) {
            var patch = readings.get(i).patch();
            var xyz = readings.get(i).xyz();
            text.append(runId).append('\t').append(patch.red()).append('\t').append(patch.green());
            text.append('\t')
                    .append(patch.blue())
                    .append('\t')
                    .append(i)
                    .append('\t')
                    .append(xyz.x());
            text.append('\t').append(xyz.y()).append('\t').append(xyz.z()).append('\n');
        }
        return text.toString().getBytes(java.nio.charset.StandardCharsets.US_ASCII);
    }
}
