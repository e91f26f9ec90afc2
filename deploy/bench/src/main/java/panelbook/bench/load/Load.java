package panelbook.bench.load;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The load program: enters a small facility, then measures. */
public final class Load {
    private static final String BOOK = """
            {"name":"Load","timeZone":"UTC","toleranceSets":[],
             "targets":[{"name":"Load P3 PQ","primaries":{"redX":0.68,"redY":0.32,"greenX":0.265,"greenY":0.69,
               "blueX":0.15,"blueY":0.06,"whiteX":0.3127,"whiteY":0.329},"eotf":"pq","signalRange":"full","bitDepth":10,
               "peakLuminance":1000,"blackLuminance":0.0001,"toleranceSet":"HDR grading"}],
             "instruments":[{"name":"Load meter","kind":"colorimeter","luminanceUncertaintyPercent":1.6,
               "luminanceRepeatabilityPercent":0.1,"chromaticityUncertainty":0.0014,"chromaticityRepeatability":0.0001,
               "luminanceFloor":0.0005,
               "certificates":[{"number":"1","issuedOn":"2020-01-01","expiresOn":"2099-01-01"}]}],
             "rooms":[{"name":"One","displays":[
               {"name":"D2000","model":"any","panelTechnology":"emissive","presets":[{"name":"HDR","target":"Load P3 PQ","hero":true}]},
               {"name":"D10000","model":"any","panelTechnology":"emissive","presets":[{"name":"HDR","target":"Load P3 PQ","hero":false}]}]}]}
            """;

    private Load() {}

    /**
     * Measures and prints.
     *
     * @param arguments address of the service, file of an engineer's token, the service's data folder, which must be one
     *     that can be thrown away, and one of the batch sizes when not all are wanted
     */
    public static void main(String[] arguments) throws Exception {
        var service = new Service(
                arguments[0], Files.readString(Path.of(arguments[1])).strip());
        service.post("/books", BOOK, 200);
        var instrument = Service.id(service.get("/instruments?name=Load%20meter"));
        var target = Service.id(service.get("/targets?name=Load%20P3%20PQ"));
        try (var database = Database.connect(Path.of(arguments[2]))) {
            var readiness = new ReadinessLoad(service, database);
            readiness.measure(target, instrument);
            for (var batch : List.of(2000, 10_000)) {
                if (arguments.length < 4 || arguments[3].equals(batch.toString())) {
                    new Ingest(service, database, preset(service, "D" + batch + "/HDR"), instrument).of(batch);
                }
            }
        }
    }

    private static String preset(Service service, String path) throws Exception {
        return Service.id(service.get("/presets?path=Load/One/" + path));
    }
}
