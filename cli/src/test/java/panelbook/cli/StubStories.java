package panelbook.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Stories of matches as the REST contract has them, for the stand-in service. A guard refuses the last trim when a reading of
 * the follower says so in the remarks of its run ("clips"), until the step is undone or overridden.
 */
final class StubStories {

    private final StubService stub;
    final Map<String, Map<String, Object>> stories = new ConcurrentHashMap<>();
    private final List<String> order = new ArrayList<>();

    StubStories(StubService stub) {
        this.stub = stub;
    }

    /** Steps of a story as drafts, in order. */
    @SuppressWarnings("unchecked")
    List<Map<String, Object>> steps(String id) {
        return (List<Map<String, Object>>) stories.get(id).get("drafts");
    }

    @SuppressWarnings("unchecked")
    synchronized StubService.Answer answer(
            String method, String[] path, Map<String, List<String>> query, Map<String, Object> draft) {
        if (path.length == 1) {
            return method.equals("POST") ? open(draft) : ok(page(query));
        }
        var story = stories.get(path[1]);
        if (story == null) {
            return StubService.problem(404, "There is no match " + path[1] + ".", List.of());
        }
        if (path.length == 2) {
            return ok(whole(story));
        }
        return switch (path[2]) {
            case "steps" -> step(story, draft);
            case "sign-off" -> signOff(story, draft);
            case "giving-up" -> {
                if (!story.get("state").equals("open")) {
                    yield StubService.problem(409, "The match is over.", List.of());
                }
                story.put("state", "given-up");
                story.put("endedBecause", draft.get("reason"));
                yield ok(whole(story));
            }
            case "restoration" -> ok(restoration(story, query));
            default -> throw new IllegalArgumentException(path[2]);
        };
    }

    private static StubService.Answer ok(Object body) {
        return new StubService.Answer(200, body);
    }

    private StubService.Answer open(Map<String, Object> draft) {
        var id = (String) draft.get("id");
        var old = stories.get(id);
        if (old != null) {
            return old.get("draft").equals(draft)
                    ? ok(whole(old))
                    : StubService.problem(409, "There is another match of this id.", List.of());
        }
        if ("nobody".equals(draft.get("operator"))) {
            return StubService.problem(400, "There is no operator nobody.", List.of());
        }
        var story = new LinkedHashMap<String, Object>();
        story.put("draft", draft);
        story.put("drafts", new ArrayList<Map<String, Object>>());
        story.put("state", "open");
        stories.put(id, story);
        order.add(id);
        return new StubService.Answer(201, whole(story));
    }

    private Map<String, Object> page(Map<String, List<String>> query) {
        var items = new ArrayList<>();
        for (var id : order) {
            var story = stories.get(id);
            if (!query.containsKey("state") || query.get("state").contains(story.get("state"))) {
                items.add(0, whole(story));
            }
        }
        return Map.of("items", items);
    }

    @SuppressWarnings("unchecked")
    private StubService.Answer step(Map<String, Object> story, Map<String, Object> draft) {
        var drafts = (List<Map<String, Object>>) story.get("drafts");
        for (var old : drafts) {
            if (old.get("id").equals(draft.get("id"))) {
                return old.equals(draft)
                        ? ok(stepAnswer(story, old))
                        : StubService.problem(409, "There is another step of this id.", List.of());
            }
        }
        if (!story.get("state").equals("open")) {
            return StubService.problem(409, "The match is over; nothing can be added.", List.of());
        }
        var number = ((Number) draft.get("number")).intValue();
        if (number != drafts.size() + 1) {
            return StubService.problem(409, "The next step is number " + (drafts.size() + 1) + ".", List.of());
        }
        var problem = refusal(draft);
        if (problem != null) {
            return problem;
        }
        drafts.add(draft);
        return new StubService.Answer(201, stepAnswer(story, draft));
    }

    @SuppressWarnings("unchecked")
    private StubService.Answer refusal(Map<String, Object> draft) {
        if (draft.get("kind").equals("reading") && !stub.verdicts.containsKey(String.valueOf(draft.get("runId")))) {
            return StubService.problem(404, "There is no run " + draft.get("runId") + ".", List.of());
        }
        var trim = (Map<String, Object>) draft.get("trim");
        if (trim != null && Math.abs(((Number) trim.get("clicks")).intValue()) > 100) {
            return StubService.problem(
                    400,
                    "The step is refused.",
                    List.of(Map.of("pointer", "/trim/clicks", "detail", "goes beyond the control's range")));
        }
        return null;
    }

    private Map<String, Object> stepAnswer(Map<String, Object> story, Map<String, Object> draft) {
        var number = ((Number) draft.get("number")).intValue();
        return Map.of(
                "step",
                matchStep(story, draft),
                "advice",
                List.of("advice for " + draft.get("kind")),
                "settings",
                settings(story, number),
                "guards",
                guards(story));
    }

    private Map<String, Object> matchStep(Map<String, Object> story, Map<String, Object> draft) {
        var step = new LinkedHashMap<>(draft);
        var number = ((Number) draft.get("number")).intValue();
        if (draft.get("kind").equals("reading")) {
            step.put("ofHero", isOfHero(story, draft));
        }
        step.put("settings", settings(story, number));
        step.put("undone", undone(story, number));
        step.put("guards", List.of());
        step.put("recordedBy", "Mara");
        return step;
    }

    private Map<String, Object> run(Map<String, Object> reading) {
        return stub.things.getOrDefault("runs", Map.of()).get(String.valueOf(reading.get("runId")));
    }

    @SuppressWarnings("unchecked")
    private boolean isOfHero(Map<String, Object> story, Map<String, Object> reading) {
        var opening = (Map<String, Object>) story.get("draft");
        return Objects.equals(run(reading).get("presetId"), opening.get("heroPresetId"));
    }

    @SuppressWarnings("unchecked")
    private boolean undone(Map<String, Object> story, int number) {
        return ((List<Map<String, Object>>) story.get("drafts"))
                .stream()
                        .filter(s -> s.get("returnTo") != null)
                        .anyMatch(s -> ((Number) s.get("returnTo")).intValue() < number
                                && number < ((Number) s.get("number")).intValue());
    }

    /** How the controls stand after a step, worked out by running every step from the start. */
    @SuppressWarnings("unchecked")
    List<Map<String, Object>> settings(Map<String, Object> story, int number) {
        var opening = (Map<String, Object>) story.get("draft");
        var history = new ArrayList<TreeMap<String, Integer>>();
        var now = new TreeMap<String, Integer>();
        ((List<Map<String, Object>>) opening.get("startingTrims")).forEach(t -> turn(now, t));
        history.add(new TreeMap<>(now));
        for (var step : (List<Map<String, Object>>) story.get("drafts")) {
            if (((Number) step.get("number")).intValue() > number) {
                break;
            }
            if (step.get("trim") != null) {
                turn(now, (Map<String, Object>) step.get("trim"));
            }
            if (step.get("returnTo") != null) {
                now.clear();
                now.putAll(history.get(((Number) step.get("returnTo")).intValue()));
            }
            history.add(new TreeMap<>(now));
        }
        var settings = new ArrayList<Map<String, Object>>();
        now.forEach((name, clicks) -> {
            if (clicks != 0) {
                var parts = name.split("@");
                settings.add(Map.of("control", parts[0], "level", parts[1], "clicks", clicks));
            }
        });
        return settings;
    }

    private static void turn(Map<String, Integer> now, Map<String, Object> trim) {
        now.merge(
                trim.get("control") + "@" + trim.get("level"), ((Number) trim.get("clicks")).intValue(), Integer::sum);
    }

    @SuppressWarnings("unchecked")
    private List<Map<String, Object>> guards(Map<String, Object> story) {
        var guards = new TreeMap<String, Map<String, Object>>();
        Map<String, Object> last = null;
        for (var step : (List<Map<String, Object>>) story.get("drafts")) {
            var number = ((Number) step.get("number")).intValue();
            if (undone(story, number)) {
                continue;
            }
            if (step.get("trim") != null) {
                last = (Map<String, Object>) step.get("trim");
            }
            if (step.get("kind").equals("reading")
                    && last != null
                    && "clips".equals(run(step).get("remarks"))) {
                guards.put(last.get("control") + "@" + last.get("level"), guard(last, number, "refused", null));
            }
            if (step.get("kind").equals("override")) {
                var key = step.get("control") + "@" + step.get("level");
                guards.computeIfPresent(
                        key,
                        (k, g) -> guard(
                                Map.of("control", g.get("control"), "level", g.get("level")),
                                number,
                                "overridden",
                                step.get("note")));
            }
        }
        return List.copyOf(guards.values());
    }

    private static Map<String, Object> guard(Map<String, Object> trim, int step, String decision, Object reason) {
        var guard = new LinkedHashMap<String, Object>();
        guard.put("control", trim.get("control"));
        guard.put("level", trim.get("level"));
        guard.put("step", step);
        guard.put("decision", decision);
        guard.put("explanation", "Its channel no longer rises over the top of the ramp.");
        guard.put("before", 4.1);
        guard.put("after", 0.02);
        guard.put("unit", "%");
        guard.put("readings", List.of());
        guard.put("corrections", List.of());
        guard.put("reason", reason);
        return guard;
    }

    @SuppressWarnings("unchecked")
    private StubService.Answer signOff(Map<String, Object> story, Map<String, Object> draft) {
        var signed = (Map<String, Object>) story.get("signOff");
        if (signed != null) {
            return signed.get("id").equals(draft.get("id"))
                    ? ok(signed)
                    : StubService.problem(409, "The match is signed already.", List.of());
        }
        if (guards(story).stream().anyMatch(g -> g.get("decision").equals("refused"))) {
            return StubService.problem(
                    409,
                    "A guard refuses gain.red: before 4.1 %, after 0.02 %. Go back, or keep it with a reason.",
                    List.of());
        }
        var opening = (Map<String, Object>) story.get("draft");
        var match = new LinkedHashMap<>(draft);
        match.put("storyId", opening.get("id"));
        match.put("followerPresetId", opening.get("followerPresetId"));
        match.put("heroPresetId", opening.get("heroPresetId"));
        match.put("operator", opening.get("operator"));
        match.put("trims", settings(story, Integer.MAX_VALUE));
        match.put("follower", "North/Suite 1/Client/HDR");
        match.put("hero", "North/Suite 1/Main/HDR");
        if (draft.get("followerRunId") != null) {
            match.put("agreedOffset", offset());
        }
        match.put("recordedBy", "Mara");
        match.put("inForce", true);
        story.put("signOff", match);
        story.put("state", "signed");
        return new StubService.Answer(201, match);
    }

    @SuppressWarnings("unchecked")
    Map<String, Object> whole(Map<String, Object> story) {
        var opening = (Map<String, Object>) story.get("draft");
        var whole = new LinkedHashMap<>(opening);
        whole.put("follower", "North/Suite 1/Client/HDR");
        whole.put("hero", "North/Suite 1/Main/HDR");
        whole.put("target", "HDR 1000");
        whole.put("instrument", opening.get("instrumentId") == null ? null : "Meter 1");
        whole.put("state", story.get("state"));
        whole.put(
                "conditions",
                List.of(
                        condition("same-target", "yes", "both aim at HDR 1000"),
                        condition(
                                "viewing-light",
                                Boolean.TRUE.equals(opening.get("lightsAtViewingLevel")) ? "yes" : "unknown",
                                "nobody said; dim the lights to viewing level"),
                        condition(
                                "follower-warm-up",
                                opening.get("followerMinutesSincePowerOn") == null ? "unknown" : "no",
                                "on for 5 of 30 min; wait")));
        whole.put("advice", List.of("Look at many shots before and after a change."));
        whole.put(
                "steps",
                ((List<Map<String, Object>>) story.get("drafts"))
                        .stream().map(step -> matchStep(story, step)).toList());
        whole.put("settings", settings(story, Integer.MAX_VALUE));
        whole.put("guards", guards(story));
        whole.put("signOff", story.get("signOff"));
        whole.put("endedBecause", story.get("endedBecause"));
        whole.put("recordedBy", "Mara");
        return whole;
    }

    private static Map<String, Object> condition(String requirement, String holds, String explanation) {
        return Map.of("requirement", requirement, "holds", holds, "explanation", explanation);
    }

    @SuppressWarnings("unchecked")
    private Map<String, Object> restoration(Map<String, Object> story, Map<String, List<String>> query) {
        var last = ((List<?>) story.get("drafts")).size();
        var step =
                query.containsKey("step") ? Integer.parseInt(query.get("step").get(0)) : last;
        var changes = new ArrayList<Map<String, Object>>();
        for (var setting : settings(story, step)) {
            var change = new LinkedHashMap<String, Object>(setting);
            change.put("from", 0);
            change.put("to", setting.get("clicks"));
            changes.add(change);
        }
        return Map.of(
                "matchId",
                ((Map<String, Object>) story.get("draft")).get("id"),
                "step",
                step,
                "follower",
                "North/Suite 1/Client/HDR",
                "state",
                "after step " + step,
                "from",
                "its baseline",
                "changes",
                changes);
    }

    /** Some agreed offset. */
    static Map<String, Object> offset() {
        return Map.of(
                "du", 0.001,
                "dv", -0.002,
                "duv", 0.0022,
                "luminancePercent", 1.5,
                "chromaticityUncertainty", 0.0002,
                "luminanceUncertaintyPercent", 0.2,
                "corrections", List.of());
    }
}
