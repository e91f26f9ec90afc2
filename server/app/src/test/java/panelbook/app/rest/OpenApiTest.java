package panelbook.app.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import panelbook.app.testing.Operations;
import panelbook.app.testing.Operations.Operation;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Metric;
import panelbook.wire.Role;
import tools.jackson.databind.JsonNode;

/** The served document against what the controllers do. */
class OpenApiTest extends ServiceTest {

    @Autowired
    @Qualifier("requestMappingHandlerMapping")
    private RequestMappingHandlerMapping mappings;

    private JsonNode document;

    @BeforeEach
    void read() {
        document = nobody().get("/v3/api-docs").expect(200).tree();
    }

    @Test
    void everyMappingIsAnOperationAndEveryOperationAMapping() {
        var mapped = new TreeSet<String>();
        mappings.getHandlerMethods().forEach((mapping, method) -> {
            if (mapping.getPatternValues().iterator().next().startsWith("/api/")) {
                mapping.getMethodsCondition()
                        .getMethods()
                        .forEach(verb -> mapping.getPatternValues().forEach(path -> mapped.add(verb + " " + path)));
            }
        });

        assertThat(mapped).as("the service has controllers").hasSizeGreaterThan(40);
        assertThat(Operations.of(document).stream().map(Operation::toString))
                .containsExactlyInAnyOrderElementsOf(mapped);
    }

    @Test
    void everyOperationDocumentsTheParametersThatItKnows() {
        mappings.getHandlerMethods().forEach((mapping, method) -> {
            var path = mapping.getPatternValues().iterator().next();
            if (!path.startsWith("/api/")) {
                return;
            }
            var verb =
                    mapping.getMethodsCondition().getMethods().iterator().next().name();
            var documented = document.at("/paths")
                    .path(path)
                    .path(verb.toLowerCase(java.util.Locale.ROOT))
                    .path("parameters")
                    .valueStream()
                    .filter(parameter -> parameter.path("in").asString().equals("query"))
                    .map(parameter -> parameter.path("name").asString())
                    .toList();
            assertThat(documented)
                    .as("query parameters of %s %s", verb, path)
                    .containsExactlyInAnyOrderElementsOf(KnownParameters.names(method));
        });
    }

    @Test
    void everyReferenceLeadsSomewhere() {
        var references = new HashSet<String>();
        collectReferences(document, references);

        assertThat(references)
                .isNotEmpty()
                .allSatisfy(reference -> assertThat(
                                document.at(reference.substring(1)).isMissingNode())
                        .as(reference)
                        .isFalse());
    }

    @Test
    void everyOperationAsksForATokenAndAnswersWithProblems() {
        assertThat(document.at("/components/securitySchemes/bearer/scheme").asString())
                .isEqualTo("bearer");
        for (var operation : Operations.of(document)) {
            var answer = nobody().send(operation.method(), operation.anywhere(), "{}", List.of());
            answer.expect(401).problem();
            assertThat(operation.documents(401))
                    .as("%s documents 401", operation)
                    .isTrue();
        }
    }

    @Test
    void whatAnOperationAnswersToNonsenseIsDocumented() {
        for (var operation : Operations.of(document)) {
            if (operation.path().endsWith("/stream")) {
                continue; // answers for ever
            }
            var body = operation.method().equals("GET") ? null : "{}";
            var answer = engineer().send(operation.method(), operation.anywhere(), body, List.of());
            assertThat(operation.documents(answer.status()))
                    .as("%s documents %s: %s", operation, answer.status(), answer.text())
                    .isTrue();
            if (answer.status() >= 400) {
                answer.problem();
            } else {
                mustFit(answer.tree(), success(operation, answer.status()), operation.toString());
            }
        }
    }

    @Test
    void whatIsAnsweredFitsItsSchema() {
        var samples = new Samples(engineer());
        var room = samples.room(samples.facility().id());
        var display = samples.display(room.facilityId(), room.id());
        var preset = samples.preset(display.id(), samples.target().id());
        samples.hero(room.id(), preset.id());
        var instrument = samples.instrument();
        samples.quirk(display.id());
        var follower =
                samples.preset(samples.display(room.facilityId(), room.id()).id(), preset.targetId());
        var story = samples.story(follower.id(), preset.id());
        var calibrator = samples.calibrator(room.facilityId());
        var visit = samples.visit(room.id(), calibrator.id(), preset.id());
        var paths = Map.ofEntries(
                Map.entry("/api/v1/calibrators/{id}", calibrator.id()),
                Map.entry("/api/v1/calibrators/{id}/absences", calibrator.id()),
                Map.entry("/api/v1/visits/{id}", visit.id()),
                Map.entry("/api/v1/plans/{id}", samples.plan(room.facilityId()).id()),
                Map.entry("/api/v1/rooms/{id}/planning", room.id()),
                Map.entry("/api/v1/match-stories/{id}", story.id()),
                Map.entry("/api/v1/match-stories/{id}/restoration", story.id()),
                Map.entry("/api/v1/displays/{id}/control-ranges", display.id()),
                Map.entry("/api/v1/displays/{id}/click-effects", display.id()),
                Map.entry("/api/v1/rooms/{id}", room.id()),
                Map.entry("/api/v1/rooms/{id}/heroes", room.id()),
                Map.entry("/api/v1/rooms/{id}/readiness", room.id()),
                Map.entry("/api/v1/rooms/{id}/sheet", room.id()),
                Map.entry("/api/v1/displays/{id}", display.id()),
                Map.entry("/api/v1/displays/{id}/stays", display.id()),
                Map.entry("/api/v1/displays/{id}/quirks", display.id()),
                Map.entry("/api/v1/presets/{id}", preset.id()),
                Map.entry("/api/v1/presets/{id}/forecast", preset.id()),
                Map.entry("/api/v1/targets/{id}", preset.targetId()),
                Map.entry("/api/v1/instruments/{id}", instrument.id()),
                Map.entry("/api/v1/instruments/{id}/certificates", instrument.id()),
                Map.entry(
                        "/api/v1/channels/{id}",
                        samples.channel(room.facilityId()).id()),
                Map.entry("/api/v1/facilities/{id}/notification-settings", room.facilityId()),
                Map.entry("/api/v1/facilities/{id}/book", room.facilityId()));
        paths.forEach((path, id) -> {
            var operation =
                    new Operation("GET", path, document.at("/paths").path(path).path("get"));
            var answer = engineer().get(path.replace("{id}", id.toString())).expect(200);
            mustFit(answer.tree(), success(operation, 200), path);
        });
    }

    @Test
    void enumsAreDocumentedAsTheirWords() {
        var metrics = document.at("/components/schemas/Tolerance/properties/metric/enum")
                .valueStream()
                .map(JsonNode::asString)
                .toList();
        assertThat(metrics)
                .containsExactlyElementsOf(
                        Arrays.stream(Metric.values()).map(Metric::toString).toList());
        assertThat(document.at("/components/schemas/Token/properties/role/enum").toString())
                .isEqualTo(Arrays.stream(Role.values())
                        .map(role -> "\"" + role + "\"")
                        .collect(Collectors.joining(",", "[", "]")));
    }

    private JsonNode success(Operation operation, int status) {
        return operation
                .description()
                .path("responses")
                .path(String.valueOf(status))
                .at("/content/application~1json/schema");
    }

    /** As much of JSON Schema as the document uses for answers. */
    private void mustFit(JsonNode value, JsonNode schema, String at) {
        if (schema.has("$ref")) {
            mustFit(value, document.at(schema.path("$ref").asString().substring(1)), at);
        } else if (schema.has("anyOf")) {
            if (!value.isNull()) {
                mustFit(value, schema.path("anyOf").get(0), at);
            }
        } else {
            assertThat(types(schema)).as("type at %s: %s", at, value).contains(type(value, types(schema)));
            if (schema.has("enum")) {
                assertThat(schema.path("enum").valueStream().map(JsonNode::asString))
                        .as(at)
                        .contains(value.asString());
            }
            if (value.isArray()) {
                value.valueStream().forEach(item -> mustFit(item, schema.path("items"), at + "[]"));
            }
            if (value.isObject() && schema.has("properties")) {
                mustFitObject(value, schema, at);
            }
        }
    }

    private void mustFitObject(JsonNode value, JsonNode schema, String at) {
        value.properties().forEach(property -> {
            assertThat(schema.path("properties").has(property.getKey()))
                    .as("%s documents %s", at, property.getKey())
                    .isTrue();
            mustFit(
                    property.getValue(),
                    schema.path("properties").path(property.getKey()),
                    at + "/" + property.getKey());
        });
        schema.path("required")
                .valueStream()
                .forEach(name -> assertThat(value.has(name.asString()))
                        .as("%s has %s", at, name)
                        .isTrue());
    }

    private static Set<String> types(JsonNode schema) {
        var type = schema.path("type");
        return type.isArray()
                ? type.valueStream().map(JsonNode::asString).collect(Collectors.toSet())
                : Set.of(type.asString());
    }

    private static String type(JsonNode value, Set<String> allowed) {
        if (value.isNumber()) {
            return value.isIntegralNumber() && allowed.contains("integer") ? "integer" : "number";
        }
        return switch (value.getNodeType()) {
            case STRING -> "string";
            case BOOLEAN -> "boolean";
            case ARRAY -> "array";
            case NULL -> "null";
            default -> "object";
        };
    }

    private static void collectReferences(JsonNode node, Set<String> references) {
        var open = new ArrayList<JsonNode>(List.of(node));
        while (!open.isEmpty()) {
            var next = open.remove(open.size() - 1);
            if (next.has("$ref")) {
                references.add(next.path("$ref").asString());
            }
            next.valueStream().forEach(open::add);
        }
    }
}
