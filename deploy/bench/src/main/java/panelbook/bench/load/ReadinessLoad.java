package panelbook.bench.load;

import java.sql.Connection;
import java.util.Locale;
import java.util.Random;
import java.util.UUID;

/**
 * Readiness of one room among 2,000 with 10,000 displays, beside a facility by its primary key through the same HTTP
 * stack (token, ETag and JSON included); of the whole facility; and the page that
 * shows it.
 */
final class ReadinessLoad {
    private static final int ROOMS = 2000;
    private static final int DISPLAYS = 10_000;

    private final Service service;
    private final Connection database;

    ReadinessLoad(Service service, Connection database) {
        this.service = service;
        this.database = database;
    }

    void measure(String targetId, String instrumentId) throws Exception {
        seed(targetId, instrumentId);
        var facility = named("facility", 0);
        var bare = new Times(500);
        var room = new Times(500);
        var random = new Random(7);
        for (var round = 0; round < 1500; round++) {
            var path = "/rooms/" + named("room", 1 + random.nextInt(ROOMS)) + "/readiness";
            bare.time(() -> service.get("/facilities/" + facility));
            room.time(() -> service.get(path));
        }
        var whole = new Times(3);
        for (var round = 0; round < 14; round++) {
            whole.time(() -> service.get("/facilities/" + facility + "/readiness"));
        }
        var page = new Times(3);
        var longest = 0;
        for (var round = 0; round < 14; round++) {
            var text = new String[1];
            page.time(() -> text[0] = service.page("/facilities/" + facility));
            longest = Math.max(longest, text[0].getBytes(java.nio.charset.StandardCharsets.UTF_8).length);
        }
        System.out.println("GET a facility by its primary key   " + bare.inMilliseconds());
        System.out.println("GET the readiness of a room         " + room.inMilliseconds());
        System.out.printf(Locale.ROOT, "  that is %.2f times the one before%n", room.median() / bare.median());
        System.out.println(
                "GET the readiness of " + ROOMS + " rooms, " + DISPLAYS + " displays  " + whole.inMilliseconds());
        System.out.println("GET the page of these rooms         " + page.inMilliseconds() + ", " + longest + " bytes");
    }

    /** Ids are made from names, so that the program knows them without asking. */
    private static UUID named(String kind, int number) {
        var hash = md5(kind + number);
        return UUID.fromString(hash.replaceFirst("(.{8})(.{4})(.{4})(.{4})(.{12})", "$1-$2-$3-$4-$5"));
    }

    private static String md5(String text) {
        try {
            var digest = java.security.MessageDigest.getInstance("MD5")
                    .digest(text.getBytes(java.nio.charset.StandardCharsets.US_ASCII));
            return java.util.HexFormat.of().formatHex(digest);
        } catch (java.security.NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has MD5", e);
        }
    }

    /**
     * Every display has a preset with a baseline, a check, counters and 20 standing findings, one in 20 displays an
     * undecided one, one in 50 an open alert; every room a hero, every follower a match.
     */
    private void seed(String targetId, String instrumentId) throws Exception {
        var begin = System.nanoTime();
        database.setAutoCommit(false);
        for (var statement : SEED.split(";\n")) {
            Database.execute(
                    database,
                    statement
                            .replace(":rooms", String.valueOf(ROOMS))
                            .replace(":displays", String.valueOf(DISPLAYS))
                            .replace(":target", "'" + targetId + "'::uuid")
                            .replace(":instrument", "'" + instrumentId + "'::uuid"));
        }
        database.commit();
        database.setAutoCommit(true);
        Database.execute(database, "analyze");
        System.out.printf(
                Locale.ROOT,
                "Seeded %d rooms, %d displays and 20 findings each in %.0f s%n",
                ROOMS,
                DISPLAYS,
                (System.nanoTime() - begin) / 1e9);
    }

    private static final String SEED = """
            insert into facility (id, name, time_zone) values (md5('facility0')::uuid, 'Load of readiness', 'UTC');
            insert into room (id, facility_id, name, time_zone)
                select md5('room' || n)::uuid, md5('facility0')::uuid, 'Room ' || n, 'UTC' from generate_series(1, :rooms) n;
            insert into display (id, facility_id, name, model, panel_technology)
                select md5('display' || n)::uuid, md5('facility0')::uuid, 'Display ' || n, 'any', 'emissive'
                from generate_series(1, :displays) n;
            insert into display_stay (id, display_id, room_id, during, moved_by, moved_at)
                select gen_random_uuid(), md5('display' || n)::uuid, md5('room' || 1 + n % :rooms)::uuid,
                       tstzrange(now() - interval '60 days', null), 'load', now() from generate_series(1, :displays) n;
            insert into preset (id, display_id, name, target_id)
                select md5('preset' || n)::uuid, md5('display' || n)::uuid, 'HDR', :target from generate_series(1, :displays) n;
            insert into hero (id, room_id, target_id, preset_id, during, named_by, named_at)
                select gen_random_uuid(), md5('room' || 1 + n % :rooms)::uuid, :target, md5('preset' || n)::uuid,
                       tstzrange(now() - interval '60 days', null), 'load', now() from generate_series(1, :rooms) n;
            insert into run (id, preset_id, instrument_id, purpose, operator, taken_at, panel_hours, minutes_since_power_on,
                             warmed_up, reading_count, digest, received_at, received_from)
                select md5(purpose || n)::uuid, md5('preset' || n)::uuid, :instrument, purpose, 'load',
                       now() - days * interval '1 day', 5000 - 10 * days, 60, true, 1, decode(repeat(md5(purpose || n), 2), 'hex'),
                       now(), 'load'
                from generate_series(1, :displays) n, (values ('as-left', 40), ('check', 1)) as taken (purpose, days);
            insert into baseline (id, preset_id, run_id, during, declared_by, declared_at)
                select gen_random_uuid(), md5('preset' || n)::uuid, md5('as-left' || n)::uuid,
                       tstzrange(now() - interval '40 days', null), 'load', now() from generate_series(1, :displays) n;
            insert into panel_hours (display_id, at, hours, recorded_at, recorded_by)
                select md5('display' || n)::uuid, now() - days * interval '1 day', 5000 - 10 * days, now(), 'load'
                from generate_series(1, :displays) n, (values (40), (1)) as taken (days);
            insert into match (id, follower_preset_id, hero_preset_id, operator, follower_run_id, hero_run_id, white_du,
                               white_dv, luminance_ln_ratio, signed_at, recorded_at, recorded_by)
                select gen_random_uuid(), md5('preset' || n)::uuid, md5('preset' || 1 + (n - 1) % :rooms)::uuid, 'load',
                       md5('as-left' || n)::uuid, md5('as-left' || 1 + (n - 1) % :rooms)::uuid, 0.01, 0.001, 0, now(), now(), 'load'
                from generate_series(:rooms + 1, :displays) n;
            insert into finding (id, preset_id, run_id, rule, metric, value, limit_value, uncertainty, conformance, decision,
                                 clear, explanation, readings, tolerance_set_id, tolerance_set_revision,
                                 target_revision, assessed_at)
                select md5('finding' || n || '-' || k)::uuid, md5('preset' || n)::uuid, md5('check' || n)::uuid, 'own-drift',
                       'own-drift-white', 0.001, 0.004, 0.0005, 0.99,
                       case when k = 1 and n % 20 = 0 then 'undecided' else 'within' end, true,
                       'White moved a little since the baseline.', '[]', tr.tolerance_set_id, 0,
                       tr.revision, now()
                from generate_series(1, :displays) n, generate_series(1, 20) k, target_revision tr
                where tr.target_id = :target and tr.revision = 0;
            insert into standing_finding (preset_id, slot, finding_id, decision)
                select md5('preset' || n)::uuid, 'slot ' || k, md5('finding' || n || '-' || k)::uuid,
                       case when k = 1 and n % 20 = 0 then 'undecided' else 'within' end
                from generate_series(1, :displays) n, generate_series(1, 20) k;
            insert into alert (id, cause, subject_kind, subject_id, facility_id, room_id, headline, detail, evidence,
                               opened_at, updated_at)
                select gen_random_uuid(), 'moved', 'preset', md5('preset' || n)::uuid, md5('facility0')::uuid,
                       md5('room' || 1 + n % :rooms)::uuid, 'It moved.', '{}', '[]', now(), now()
                from generate_series(1, :displays) n where n % 50 = 0
            """;
}
