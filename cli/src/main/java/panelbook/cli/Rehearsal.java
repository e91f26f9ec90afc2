package panelbook.cli;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import panelbook.cli.terminal.Surroundings;

/**
 * Runs the usual commands once, before a table that answers everything with next to nothing, so that the Java virtual
 * machine sees which classes a start needs and can put them into an archive. Does no work and talks to no service.
 */
public final class Rehearsal {

    private static final String TOKEN = "rehearsal";
    private static final String ID = "00000000-0000-4000-8000-000000000001";
    private static final String PRESET = """
            {"id":"%1$s","displayId":"%1$s","display":"d","room":"r","facility":"f","name":"p","targetId":"%1$s",
             "target":"t","hero":false,"baselineRunId":null,"baselineAt":null,"retiredAt":null,"version":0}""".formatted(ID);
    private static final String INSTRUMENT = """
            {"id":"%s","name":"i","kind":"colorimeter","luminanceUncertaintyPercent":1,
             "luminanceRepeatabilityPercent":1,"chromaticityUncertainty":0.1,"chromaticityRepeatability":0.1,
             "luminanceFloor":0.1,"serialNumber":null,"certificate":null,"retiredAt":null,"version":0}""".formatted(ID);
    private static final String TARGET = """
            {"id":"%1$s","name":"t","primaries":{"redX":0.64,"redY":0.33,"greenX":0.3,"greenY":0.6,"blueX":0.15,
             "blueY":0.06,"whiteX":0.3127,"whiteY":0.329},"eotf":"pq","signalRange":"full","bitDepth":10,
             "peakLuminance":100,"blackLuminance":0.01,"gamma":null,"retiredAt":null,
             "toleranceSetId":"%1$s","toleranceSet":"s","version":0}""".formatted(ID);
    private static final String ROOM = """
            {"id":"%1$s","facilityId":"%1$s","facility":"f","name":"r","timeZone":"Europe/Lisbon","retiredAt":null,"version":0}""".formatted(ID);
    private static final Map<String, String> ANSWERS = Map.of(
            "identity", "{\"tokenId\":\"" + ID + "\",\"holder\":\"h\",\"role\":\"probe\"}",
            "presets", page(PRESET),
            "instruments", page(INSTRUMENT),
            "rooms", page(ROOM),
            "targets", TARGET,
            "runs", """
                    {"runId":"%s","preset":"f/r/d/p","purpose":"check","decision":"within","becameBaseline":false,
                     "baselineNote":"","warmedUp":null,"findings":[],"alerts":[],"readingCount":1}""".formatted(ID));

    private Rehearsal() {}

    /** Runs the commands and leaves nothing behind; with an argument, only answers until standard input ends. */
    public static void main(String[] arguments) throws IOException {
        var server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", Rehearsal::answer);
        server.start();
        if (arguments.length > 0) {
            System.out.println("http://localhost:" + server.getAddress().getPort());
            System.in.readAllBytes();
            server.stop(0);
            return;
        }
        var home = Files.createTempDirectory("rehearsal");
        try {
            rehearse(home, "http://localhost:" + server.getAddress().getPort());
        } finally {
            server.stop(0);
            delete(home);
        }
    }

    private static void rehearse(Path home, String address) throws IOException {
        var file = home.resolve("run.csv");
        Files.writeString(file, """
                # preset: f/r/d/p
                # instrument: i
                # purpose: check
                # operator: o
                # taken-at: 2026-03-31T09:30:00Z
                # readings: 1
                red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2
                1023,1023,1023,95,100,108.8
                """);
        Surroundings.ofProcess();
        for (var terminal : new boolean[] {true, false}) {
            run(home, address, terminal, "--help");
            run(home, address, terminal, "run", "upload", "--help");
            run(home, address, terminal, "log-in", address);
            run(home, address, terminal, "who");
            run(home, address, terminal, "room", "list");
            run(home, address, terminal, "room", "list", "--json=name");
            run(home, address, terminal, "preset", "list");
            run(home, address, terminal, "run", "upload", file.toString());
            run(home, address, terminal, "alert", "list", "--state", "nonsense");
            run(home, address, terminal, "spool", "list");
        }
        run(home, "http://localhost:1", false, "run", "upload", file.toString());
        run(home, address, false, "spool", "send");
    }

    private static void run(Path home, String address, boolean terminal, String... arguments) throws IOException {
        var token = Files.writeString(home.resolve("token"), TOKEN);
        var nowhere = new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
        var environment =
                Map.of("HOME", home.toString(), "PANELBOOK_SERVICE", address, "PANELBOOK_TOKEN_FILE", token.toString());
        var at = new Surroundings(
                InputStream.nullInputStream(),
                nowhere,
                nowhere,
                false,
                terminal,
                terminal,
                0,
                environment,
                Clock.systemUTC(),
                home,
                Thread::sleep);
        Main.run(at, arguments);
    }

    private static String page(String item) {
        return "{\"items\":[" + item + "],\"next\":null}";
    }

    private static void answer(HttpExchange exchange) throws IOException {
        try (exchange) {
            exchange.getRequestBody().readAllBytes();
            var collection = exchange.getRequestURI()
                    .getPath()
                    .substring("/api/v1/".length())
                    .split("/")[0];
            var body = ANSWERS.getOrDefault(collection, "{\"items\":[]}").getBytes(StandardCharsets.UTF_8);
            exchange.getResponseHeaders().set("Content-Type", "application/json");
            exchange.sendResponseHeaders(200, body.length);
            exchange.getResponseBody().write(body);
        }
    }

    private static void delete(Path folder) throws IOException {
        try (var files = Files.walk(folder)) {
            for (var file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        }
    }
}
