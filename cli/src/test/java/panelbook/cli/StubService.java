package panelbook.cli;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import panelbook.cli.json.Json;

/**
 * A stand-in for the service that keeps to the REST contract as far as the client can see, over real HTTP. It judges
 * nothing: a run's verdict is what its remarks ask for ("beyond", "undecided"), else within.
 */
final class StubService implements AutoCloseable {

    static final String TOKEN = "stub-token";

    static {
        // else every small answer waits 40 ms for the acknowledgement of its head
        System.setProperty("sun.net.httpserver.nodelay", "true");
    }

    /** An answer to give instead of the right one. */
    record Answer(int status, Object body) {}

    /** A request as it came. */
    record Seen(String method, String path, String query, Object body, String ifMatch) {}

    final Map<String, Map<String, Map<String, Object>>> things = new ConcurrentHashMap<>();
    final List<Map<String, Object>> runsInOrder = new ArrayList<>();
    final Map<String, Object> verdicts = new ConcurrentHashMap<>();
    final ConcurrentLinkedQueue<Seen> seen = new ConcurrentLinkedQueue<>();
    final ConcurrentLinkedDeque<Answer> instead = new ConcurrentLinkedDeque<>();
    final List<Map<String, Object>> events = new ArrayList<>();
    final StubStories stories = new StubStories(this);
    final ConcurrentLinkedQueue<String> streamStarts = new ConcurrentLinkedQueue<>();
    private final int port;
    private HttpServer server;
    private ExecutorService threads;
    private volatile boolean open;
    Map<String, Object> previewOfCorrections = Map.of();
    Map<String, Object> madeCorrection = Map.of();
    Map<String, Object> diagnosisOfUploads;
    String role = "engineer";
    /** Given once in place of the answer to a run that was stored. */
    volatile Answer afterStoring;
    /** Given in place of the answers to what was stored in a match, one after the other. */
    final ConcurrentLinkedDeque<Answer> afterStep = new ConcurrentLinkedDeque<>();
    /** What is answered when trims are to be suggested; null for a refusal. */
    Map<String, Object> suggestion;

    Map<String, Object> due;

    StubService() {
        start(0);
        port = server.getAddress().getPort();
        add(
                "tolerance-sets",
                "House",
                Map.of(
                        "description",
                        "our own",
                        "warmUpMinutes",
                        30,
                        "hysteresis",
                        0.1,
                        "conformanceProbability",
                        0.95,
                        "tolerances",
                        List.of(
                                tolerance("own-drift-white", 0.004, "house policy", null),
                                tolerance("white-luminance-error", 5, "text", "EBU Tech 3320"))));
    }

    static Map<String, Object> tolerance(String metric, double limit, String basis, String document) {
        var tolerance = new LinkedHashMap<String, Object>();
        tolerance.put("metric", metric);
        tolerance.put("limit", limit);
        tolerance.put("basis", basis);
        tolerance.put("document", document);
        return tolerance;
    }

    String address() {
        return "http://localhost:" + port;
    }

    synchronized void stop() {
        open = false;
        synchronized (events) {
            events.notifyAll();
        }
        server.stop(0);
        threads.shutdownNow();
    }

    /** On the same port, once a stop under way has let go of it. */
    synchronized void restart() {
        start(port);
    }

    private void start(int onPort) {
        try {
            server = HttpServer.create(new InetSocketAddress("localhost", onPort), 0);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
        threads = Executors.newCachedThreadPool();
        server.setExecutor(threads);
        server.createContext("/api/v1", this::handle);
        open = true;
        server.start();
    }

    @Override
    public void close() {
        stop();
    }

    /** Lets an alert event happen. */
    long event(String headline) {
        return event(headline, "opened", false);
    }

    /** Lets an event of a kind happen, of an alert that another one holds back or not. */
    long event(String headline, String kind, boolean heldBack) {
        synchronized (events) {
            var sequence = events.size() + 1L;
            events.add(Map.of(
                    "sequence",
                    sequence,
                    "heldBack",
                    heldBack,
                    "alertId",
                    "0f7e3a44-0000-4000-8000-6b1d2c3e4f50",
                    "kind",
                    kind,
                    "cause",
                    "moved",
                    "subject",
                    "North/Suite 1/Main/HDR",
                    "at",
                    "2026-03-31T10:00:00Z",
                    "by",
                    "assessment",
                    "headline",
                    headline));
            events.notifyAll();
            return sequence;
        }
    }

    /** Adds a thing without asking. */
    Map<String, Object> add(String collection, String name, Map<String, Object> fields) {
        var id = java.util.UUID.nameUUIDFromBytes(
                (collection + name + fields.get("displayId")).getBytes(StandardCharsets.UTF_8));
        var draft = new LinkedHashMap<>(fields);
        draft.put("id", id.toString());
        draft.put("name", name);
        return store(collection, draft);
    }

    private Map<String, Object> store(String collection, Map<String, Object> draft) {
        var thing = new LinkedHashMap<>(draft);
        thing.put("version", 0);
        things.computeIfAbsent(collection, c -> new LinkedHashMap<>()).put((String) draft.get("id"), thing);
        return thing;
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            answer(exchange);
        } catch (RuntimeException e) {
            e.printStackTrace();
            throw e;
        }
    }

    private void answer(HttpExchange exchange) throws IOException {
        var bytes = exchange.getRequestBody().readAllBytes();
        var body = bytes.length == 0 ? null : Json.parse(new String(bytes, StandardCharsets.UTF_8));
        var path = exchange.getRequestURI().getRawPath().substring("/api/v1".length());
        seen.add(new Seen(
                exchange.getRequestMethod(),
                path,
                exchange.getRequestURI().getRawQuery(),
                body,
                exchange.getRequestHeaders().getFirst("If-Match")));
        if (!("Bearer " + TOKEN).equals(exchange.getRequestHeaders().getFirst("Authorization"))) {
            send(exchange, problem(401, "The token is not known.", List.of()));
            return;
        }
        var special = instead.poll();
        if (special != null) {
            send(exchange, special);
        } else if (path.equals("/alerts/stream")) {
            stream(exchange);
        } else {
            send(
                    exchange,
                    route(
                            exchange.getRequestMethod(),
                            path.substring(1).split("/"),
                            query(exchange),
                            body,
                            exchange.getRequestHeaders().getFirst("If-Match")));
        }
    }

    static Answer problem(int status, String detail, List<Map<String, Object>> errors) {
        return new Answer(
                status,
                Map.of("type", "/problems/x", "title", "No", "status", status, "detail", detail, "errors", errors));
    }

    private static void send(HttpExchange exchange, Answer answer) throws IOException {
        var bytes = Json.text(answer.body()).getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders()
                .set("Content-Type", answer.status() < 400 ? "application/json" : "application/problem+json");
        exchange.sendResponseHeaders(answer.status(), bytes.length);
        exchange.getResponseBody().write(bytes);
    }

    private static Map<String, List<String>> query(HttpExchange exchange) {
        var query = new LinkedHashMap<String, List<String>>();
        var raw = exchange.getRequestURI().getRawQuery();
        for (var pair : raw == null ? new String[0] : raw.split("&")) {
            var parts = pair.split("=", 2);
            query.computeIfAbsent(parts[0], k -> new ArrayList<>())
                    .add(URLDecoder.decode(parts[1], StandardCharsets.UTF_8));
        }
        return query;
    }

    private static Answer ok(Object body) {
        return new Answer(200, body);
    }

    @SuppressWarnings("unchecked")
    private Answer route(String method, String[] path, Map<String, List<String>> query, Object body, String ifMatch) {
        var draft = body instanceof Map ? (Map<String, Object>) body : Map.<String, Object>of();
        var joined = String.join("/", path);
        if (joined.equals("identity")) {
            return ok(Map.of("tokenId", "2b6f0d0e-0000-4000-8000-91c2b3a4d5e6", "holder", "Mara", "role", role));
        }
        if (path[0].equals("match-stories")) {
            var answer = stories.answer(method, path, query, draft);
            var lost = method.equals("POST") && answer.status() < 300 ? afterStep.poll() : null;
            return lost != null ? lost : answer;
        }
        if (joined.equals("due")) {
            return ok(due);
        }
        if (joined.equals("trim-suggestions")) {
            return suggestion == null
                    ? problem(409, "There is no reading of the follower yet: read a run first.", List.of())
                    : ok(suggestion);
        }
        if (joined.equals("advice") && method.equals("GET")) {
            return ok(List.copyOf(things.getOrDefault("advice", Map.of()).values()));
        }
        if (joined.equals("runs") && method.equals("POST")) {
            return run(draft);
        }
        if (joined.equals("books")) {
            return ok(Map.of(
                    "facilityId",
                    "2b6f0d0e-0000-4000-8000-91c2b3a4d5e6",
                    "added",
                    7,
                    "changed",
                    0,
                    "unchanged",
                    1,
                    "notes",
                    List.of("added facility " + draft.get("name"))));
        }
        if (joined.equals("tokens") && method.equals("POST")) {
            var token = Map.of(
                    "id",
                    draft.get("id"),
                    "holder",
                    draft.get("holder"),
                    "role",
                    draft.get("role"),
                    "createdAt",
                    "2026-03-31T10:00:00Z",
                    "createdBy",
                    "Mara");
            return new Answer(201, Map.of("token", token, "secret", "pb_secret"));
        }
        if (joined.equals("accounts") && method.equals("POST")) {
            var account = new LinkedHashMap<>(draft);
            account.remove("password");
            account.putAll(Map.of(
                    "createdAt",
                    "2026-03-31T10:00:00Z",
                    "createdBy",
                    "Mara",
                    "passwordSetAt",
                    "2026-03-31T10:00:00Z",
                    "passwordSetBy",
                    "Mara"));
            return new Answer(201, store("accounts", account));
        }
        if (path.length >= 3) {
            return ofThing(method, path, query, draft);
        }
        var all = things.computeIfAbsent(path[0], c -> new LinkedHashMap<>());
        if (path.length == 2) {
            return one(method, path[0], all.get(path[1]), draft, ifMatch);
        }
        return method.equals("POST") ? add(path[0], draft) : page(path[0], query);
    }

    private Answer one(
            String method, String collection, Map<String, Object> thing, Map<String, Object> draft, String ifMatch) {
        if (thing == null) {
            return problem(404, "There is no such thing in " + collection + ".", List.of());
        }
        if (method.equals("PUT")) {
            var version = ((Number) thing.get("version")).longValue();
            if (!("\"" + version + "\"").equals(ifMatch)) {
                return problem(412, "It was edited since you read it.", List.of());
            }
            thing.putAll(draft);
            thing.put("version", version + 1);
        }
        return ok(whole(collection, thing));
    }

    private Answer add(String collection, Map<String, Object> draft) {
        var all = things.computeIfAbsent(collection, c -> new LinkedHashMap<>());
        var old = all.get((String) draft.get("id"));
        if (old != null) {
            var same = draft.entrySet().stream()
                    .allMatch(e -> java.util.Objects.equals(old.get(e.getKey()), e.getValue()));
            return same ? ok(whole(collection, old)) : problem(409, "There is another of this id.", List.of());
        }
        return new Answer(201, whole(collection, store(collection, draft)));
    }

    private Answer page(String collection, Map<String, List<String>> query) {
        var fits = new ArrayList<>();
        for (var thing :
                things.computeIfAbsent(collection, c -> new LinkedHashMap<>()).values()) {
            var whole = whole(collection, thing);
            if (fits(collection, whole, query)) {
                fits.add(whole);
            }
        }
        var from =
                query.containsKey("after") ? Integer.parseInt(query.get("after").get(0)) : 0;
        var limit =
                query.containsKey("limit") ? Integer.parseInt(query.get("limit").get(0)) : 50;
        var to = Math.min(fits.size(), from + limit);
        var page = new LinkedHashMap<String, Object>();
        page.put("items", fits.subList(from, to));
        page.put("next", to < fits.size() ? Integer.toString(to) : null);
        return ok(page);
    }

    private static boolean fits(String collection, Map<String, Object> thing, Map<String, List<String>> query) {
        for (var filter : query.entrySet()) {
            var wanted = filter.getValue();
            var right = switch (filter.getKey()) {
                case "limit", "after", "retired" -> true;
                case "held" -> wanted.contains(String.valueOf(thing.get("heldBy") != null));
                case "path" ->
                    ("/" + thing.get("facility") + "/" + thing.get("room") + "/" + thing.get("display") + "/"
                                    + thing.get("name"))
                            .endsWith("/" + wanted.get(0));
                case "facility", "room", "display", "preset", "instrument", "hero", "follower" ->
                    wanted.contains(thing.get(filter.getKey() + (collection.equals("matches") ? "PresetId" : "Id")));
                default -> wanted.contains(String.valueOf(thing.get(filter.getKey())));
            };
            if (!right) {
                return false;
            }
        }
        return true;
    }

    private static Map<String, Object> quirk(Map<String, Object> display, Map<String, Object> draft) {
        var quirk = new LinkedHashMap<>(draft);
        quirk.put("displayId", display.get("id"));
        quirk.put("display", display.get("name"));
        quirk.put("recordedBy", "Mara");
        quirk.values().removeIf(java.util.Objects::isNull);
        quirk.putIfAbsent("seenAt", "2026-03-31T10:00:00Z");
        return quirk;
    }

    private List<Object> quirksOf(String displayId, Map<String, List<String>> query) {
        return things.getOrDefault("quirks", Map.of()).values().stream()
                .filter(quirk -> displayId.equals(quirk.get("displayId")))
                .filter(quirk -> query.containsKey("settled") || quirk.get("settlement") == null)
                .map(quirk -> (Object) quirk)
                .toList();
    }

    private Answer ofThing(String method, String[] path, Map<String, List<String>> query, Map<String, Object> draft) {
        var thing = things.getOrDefault(path[0], Map.of()).get(path[1]);
        if (thing == null) {
            return problem(404, "There is no such thing.", List.of());
        }
        switch (path[2]) {
            case "retirement" -> thing.put("retiredAt", "2026-03-31T10:00:00Z");
            case "revocation" -> thing.put("revokedAt", "2026-03-31T10:00:00Z");
            case "moves" -> thing.put("roomId", draft.get("roomId"));
            case "acknowledgement" -> thing.put("state", "acknowledged");
            case "closure" -> thing.put("state", "closed");
            case "verdict" -> {
                return ok(verdicts.get(path[1]));
            }
            case "baselines" -> {
                return method.equals("POST") ? ok(verdicts.get((String) draft.get("runId"))) : ok(List.of());
            }
            case "heroes" -> {
                return method.equals("POST")
                        ? new Answer(
                                201,
                                Map.of(
                                        "roomId",
                                        path[1],
                                        "targetId",
                                        path[1],
                                        "target",
                                        "HDR 1000",
                                        "presetId",
                                        draft.get("presetId"),
                                        "display",
                                        "Main",
                                        "preset",
                                        "HDR",
                                        "from",
                                        "2026-03-31T10:00:00Z",
                                        "namedBy",
                                        "Mara"))
                        : ok(List.of());
            }
            case "panel-hours" -> {
                return method.equals("POST")
                        ? new Answer(
                                201,
                                Map.of("at", "2026-03-31T10:00:00Z", "hours", draft.get("hours"), "recordedBy", "Mara"))
                        : ok(Map.of("items", List.of()));
            }
            case "forecast" -> {
                return ok(thing.get("forecast"));
            }
            case "control-ranges" -> {
                var range = new LinkedHashMap<>(draft);
                range.put("recordedAt", "2026-03-31T10:00:00Z");
                range.put("recordedBy", "Mara");
                return method.equals("POST") ? new Answer(201, range) : ok(thing.getOrDefault(path[2], List.of()));
            }
            case "quirks" -> {
                return method.equals("POST") ? add("quirks", quirk(thing, draft)) : ok(quirksOf(path[1], query));
            }
            case "settlement" ->
                thing.putIfAbsent(
                        "settlement",
                        Map.of("word", draft.get("word"), "settledAt", "2026-03-31T11:00:00Z", "settledBy", "Mara"));
            case "corrections" -> {
                if (method.equals("GET")) {
                    return ok(List.of());
                }
                return path.length > 3 ? ok(previewOfCorrections) : new Answer(201, madeCorrection);
            }
            case "certificates" -> {
                var certificate = new LinkedHashMap<>(draft);
                certificate.put("instrumentId", path[1]);
                certificate.put("recordedBy", "Mara");
                return method.equals("POST") ? new Answer(201, certificate) : ok(List.of());
            }
            case "stays", "findings", "click-effects" -> {
                return ok(thing.getOrDefault(path[2], List.of()));
            }
            case "book", "readiness", "readiness-history", "trims", "readings", "sheet", "diagnosis" -> {
                return ok(thing.get(path[2]));
            }
            default -> throw new IllegalArgumentException(path[2]);
        }
        return ok(whole(path[0], thing));
    }

    private Answer run(Map<String, Object> upload) {
        synchronized (runsInOrder) {
            var id = (String) upload.get("id");
            if (!things.getOrDefault("presets", Map.of()).containsKey((String) upload.get("presetId"))) {
                return problem(404, "There is no preset " + upload.get("presetId") + ".", List.of());
            }
            if (verdicts.containsKey(id)) {
                return ok(verdicts.get(id));
            }
            var remarks = String.valueOf(upload.get("remarks"));
            if (remarks.startsWith("refuse")) {
                return problem(
                        400,
                        "The run is refused.",
                        List.of(Map.of("pointer", "/readings/1/y", "detail", "is too dark to be true")));
            }
            var decision = List.of("beyond", "undecided").contains(remarks) ? remarks : "within";
            var verdict = new LinkedHashMap<String, Object>(Map.of(
                    "runId",
                    id,
                    "preset",
                    "North/Suite 1/Main/HDR",
                    "purpose",
                    upload.get("purpose"),
                    "decision",
                    decision,
                    "becameBaseline",
                    false,
                    "baselineNote",
                    "",
                    "findings",
                    List.of(),
                    "alerts",
                    List.of(),
                    "readingCount",
                    ((List<?>) upload.get("readings")).size()));
            if (diagnosisOfUploads != null) {
                verdict.put("diagnosis", diagnosisOfUploads);
            }
            runsInOrder.add(upload);
            verdicts.put(id, verdict);
            var run = new LinkedHashMap<>(upload);
            run.put("preset", "North/Suite 1/Main/HDR");
            run.put("instrument", "Meter 1");
            run.put("readingCount", ((List<?>) upload.get("readings")).size());
            run.put("receivedAt", "2026-03-31T10:00:00Z");
            run.put("receivedFrom", "Mara");
            store("runs", run);
            var lost = afterStoring;
            afterStoring = null;
            return lost != null ? lost : new Answer(201, verdict);
        }
    }

    /** A draft with the names that its twin has. */
    private Map<String, Object> whole(String collection, Map<String, Object> thing) {
        var whole = new LinkedHashMap<>(thing);
        switch (collection) {
            case "rooms" -> {
                name(whole, "facility", "facilities", "facilityId");
                whole.putIfAbsent("timeZone", "Europe/Lisbon");
                if (whole.get("timeZone") == null) {
                    whole.put("timeZone", "Europe/Lisbon");
                }
            }
            case "displays" -> {
                name(whole, "facility", "facilities", "facilityId");
                name(whole, "room", "rooms", "roomId");
            }
            case "presets" -> {
                var display = whole("displays", things.get("displays").get((String) thing.get("displayId")));
                whole.put("display", display.get("name"));
                whole.put("room", display.get("room"));
                whole.put("roomId", display.get("roomId"));
                whole.put("facility", display.get("facility"));
                name(whole, "target", "targets", "targetId");
            }
            case "targets" -> name(whole, "toleranceSet", "tolerance-sets", "toleranceSetId");
            case "matches" -> {
                whole.put("follower", "North/Suite 1/Client/HDR");
                whole.put("hero", "North/Suite 1/Main/HDR");
                if (thing.get("followerRunId") != null) {
                    whole.put("agreedOffset", StubStories.offset());
                }
                whole.putIfAbsent("signedAt", null);
                if (whole.get("signedAt") == null) {
                    whole.put("signedAt", Instant.parse("2026-03-31T10:00:00Z").toString());
                }
                whole.put("recordedBy", "Mara");
                whole.put("inForce", true);
            }
            default -> {
                // the rest is as it was sent
            }
        }
        return whole;
    }

    private void name(Map<String, Object> whole, String field, String collection, String idField) {
        var id = whole.get(idField);
        var named =
                id == null ? null : things.getOrDefault(collection, Map.of()).get((String) id);
        whole.put(field, named == null ? null : named.get("name"));
    }

    private void stream(HttpExchange exchange) throws IOException {
        var after = exchange.getRequestHeaders().getFirst("Last-Event-ID");
        exchange.getResponseHeaders().set("Content-Type", "text/event-stream");
        exchange.sendResponseHeaders(200, 0);
        var out = exchange.getResponseBody();
        int next;
        synchronized (events) {
            next = after == null ? events.size() : Integer.parseInt(after);
            streamStarts.add(String.valueOf(after));
        }
        out.write(("id: " + next + "\n: here you are\n\n").getBytes(StandardCharsets.UTF_8));
        out.flush();
        while (open) {
            Map<String, Object> event;
            synchronized (events) {
                while (open && events.size() <= next) {
                    try {
                        events.wait();
                    } catch (InterruptedException e) {
                        return;
                    }
                }
                if (!open) {
                    return;
                }
                event = events.get(next++);
            }
            out.write(("id: " + event.get("sequence") + "\nevent: opened\ndata: " + Json.text(event) + "\n\n")
                    .getBytes(StandardCharsets.UTF_8));
            out.flush();
        }
    }
}
