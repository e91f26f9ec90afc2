package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Days;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Words;
import panelbook.wire.Page;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursAnswer;
import panelbook.wire.PanelHoursAnswerDraft;
import panelbook.wire.PanelHoursAnswerKind;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.PanelHoursQuestionKind;

/** Questions about panel hours and what people answered. */
@Component
class PanelHoursQuestions {

    private static final String SELECT = """
            select q.id, q.display_id, f.name || '/' || coalesce(ro.name, '-') || '/' || d.name as display, q.kind, q.asked_at,
                   %s, %s, %s,
                   a.answer, a.value_id = q.before_id as mistyped_before, c.hours as corrected_hours, a.note as answer_note,
                   a.answered_at, a.answered_by
            from panel_hours_question q
            join display d on d.id = q.display_id
            join facility f on f.id = d.facility_id
            left join display_stay st on st.display_id = d.id and upper_inf(st.during)
            left join room ro on ro.id = st.room_id
            join panel_hours v on v.id = q.value_id
            join panel_hours b on b.id = q.before_id
            left join panel_hours n on n.id = q.after_id
            left join panel_hours_answer a on a.question_id = q.id
            left join panel_hours c on c.id = a.corrected_id""".formatted(columns("v"), columns("b"), columns("n"));

    /** What a withdrawn run brought needs no answer. */
    private static final String OPEN = """
            a.question_id is null and q.dissolved_at is null
            and exists (select from counted_panel_hours h where h.id = q.value_id)
            and exists (select from counted_panel_hours h where h.id = q.before_id)""";

    private final PanelHoursWatch watch;
    private final JdbcClient jdbc;
    private final Clock clock;

    PanelHoursQuestions(PanelHoursWatch watch, JdbcClient jdbc, Clock clock) {
        this.watch = watch;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    private static String columns(String of) {
        return "%1$s.at as %1$s_at, %1$s.hours as %1$s_hours, %1$s.run_id as %1$s_run, %1$s.note as %1$s_note, %1$s.recorded_by as %1$s_by"
                .formatted(of);
    }

    /** Open questions, or with {@code answered} all that were ever answered or stand open; oldest first. */
    @Transactional(readOnly = true)
    Page<PanelHoursQuestion> page(
            @Nullable UUID facility, @Nullable UUID room, @Nullable UUID display, boolean answered, Paging paging) {
        var query = new Query(SELECT)
                .where(answered ? "(a.question_id is not null or " + OPEN + ")" : OPEN)
                .where("d.facility_id = :facility", "facility", facility)
                .where("st.room_id = :room", "room", room)
                .where("q.display_id = :display", "display", display);
        if (!paging.first()) {
            query.where("(q.asked_at, q.id) > (:at, :id)")
                    .bind("at", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                    .bind("id", paging.keyId(1));
        }
        var rows = query.list(jdbc, PanelHoursQuestions::question, "q.asked_at, q.id limit " + paging.fetch());
        return paging.page(
                rows,
                question -> List.of(question.askedAt().toString(), question.id().toString()));
    }

    /** The open questions of displays, oldest first. */
    List<PanelHoursQuestion> openOf(Collection<UUID> displays) {
        return new Query(SELECT)
                .where(OPEN)
                .where("q.display_id = any (:displays)", "displays", displays.toArray(new UUID[0]))
                .list(jdbc, PanelHoursQuestions::question, "q.asked_at, q.id");
    }

    @Transactional(readOnly = true)
    PanelHoursQuestion get(UUID id) {
        return new Query(SELECT)
                .where("q.id = :id", "id", id)
                .one(jdbc, PanelHoursQuestions::question)
                .orElseThrow(() -> Refusal.notFound("question about panel hours", id));
    }

    /** Answers a question; the same answer again is harmless, and nothing that was entered is deleted. */
    @Transactional
    PanelHoursQuestion answer(UUID id, PanelHoursAnswerDraft draft) {
        check(draft);
        get(id);
        jdbc.sql("select id from panel_hours_question where id = ? for update")
                .param(id)
                .query(UUID.class)
                .single();
        var question = get(id);
        var there = question.answer();
        if (there != null) {
            if (!same(there, draft)) {
                throw Refusal.conflict("The question was answered by " + there.answeredBy() + " at "
                        + there.answeredAt() + ": " + there.answer() + ". What is answered stays so.");
            }
            return question;
        }
        insert(question, draft);
        watch.lookAt(question.displayId());
        return get(id);
    }

    private static void check(PanelHoursAnswerDraft draft) {
        var mistyped = draft.answer() == PanelHoursAnswerKind.TYPING_ERROR;
        var checks = new Checks()
                .text("/note", draft.note(), 10_000)
                .that(mistyped || !draft.before(), "/before", "Only a typing error can lie in the value before.")
                .that(
                        mistyped || draft.correctedHours() == null,
                        "/correctedHours",
                        "Only a typing error has a corrected value.");
        if (draft.correctedHours() != null) {
            checks.range("/correctedHours", draft.correctedHours(), 0, PanelHoursBook.MOST_HOURS);
        }
        checks.refuse();
    }

    private static boolean same(PanelHoursAnswer there, PanelHoursAnswerDraft draft) {
        return there.answer() == draft.answer()
                && there.before() == draft.before()
                && Objects.equals(there.correctedHours(), draft.correctedHours())
                && Objects.equals(there.note(), draft.note());
    }

    private void insert(PanelHoursQuestion question, PanelHoursAnswerDraft draft) {
        var now = clock.instant();
        var by = Caller.current().holder();
        // the corrected value stands at the same time and belongs to the same run as the mistyped one
        Long corrected = draft.correctedHours() == null
                ? null
                : jdbc.sql("""
                                insert into panel_hours (display_id, at, hours, run_id, note, recorded_at, recorded_by)
                                select h.display_id, h.at, :hours, h.run_id, :note, :now, :by
                                from panel_hours_question q
                                join panel_hours h on h.id = case when :before then q.before_id else q.value_id end
                                where q.id = :question returning id""")
                        .param("hours", draft.correctedHours())
                        .param("note", "in place of a mistyped value")
                        .param("now", Rows.at(now))
                        .param("by", by)
                        .param("before", draft.before())
                        .param("question", question.id())
                        .query(Long.class)
                        .single();
        jdbc.sql("""
                        insert into panel_hours_answer (question_id, value_id, answer, corrected_id, note, answered_at, answered_by)
                        select q.id, case when :before then q.before_id else q.value_id end, :answer, :corrected, :note, :now, :by
                        from panel_hours_question q where q.id = :question""")
                .param("before", draft.before())
                .param("answer", draft.answer().toString())
                .param("corrected", corrected)
                .param("note", draft.note())
                .param("now", Rows.at(now))
                .param("by", by)
                .param("question", question.id())
                .update();
    }

    private static PanelHoursQuestion question(ResultSet row, int n) throws SQLException {
        var kind = Words.of(PanelHoursQuestionKind.class, row.getString("kind"));
        var before = Objects.requireNonNull(hours(row, "b"));
        var value = Objects.requireNonNull(hours(row, "v"));
        var after = hours(row, "n");
        return new PanelHoursQuestion(
                Rows.id(row, "id"),
                Rows.id(row, "display_id"),
                row.getString("display"),
                kind,
                before,
                value,
                after,
                text(kind, before, value, after),
                Rows.instant(row, "asked_at"),
                answer(row));
    }

    private static @Nullable PanelHours hours(ResultSet row, String of) throws SQLException {
        var at = Rows.instantOrNull(row, of + "_at");
        return at == null
                ? null
                : new PanelHours(
                        at,
                        row.getDouble(of + "_hours"),
                        Rows.idOrNull(row, of + "_run"),
                        row.getString(of + "_note"),
                        row.getString(of + "_by"));
    }

    private static @Nullable PanelHoursAnswer answer(ResultSet row) throws SQLException {
        var word = row.getString("answer");
        return word == null
                ? null
                : new PanelHoursAnswer(
                        Words.of(PanelHoursAnswerKind.class, word),
                        row.getBoolean("mistyped_before"),
                        Rows.doubleOrNull(row, "corrected_hours"),
                        row.getString("answer_note"),
                        Rows.instant(row, "answered_at"),
                        row.getString("answered_by"));
    }

    private static String text(
            PanelHoursQuestionKind kind, PanelHours before, PanelHours value, @Nullable PanelHours after) {
        var steps = "The counter stood at " + at(before) + " and at " + at(value);
        return switch (kind) {
            case WENT_BACK -> steps + ": was the panel replaced or the counter reset, or is one of the two mistyped?";
            case FASTER_THAN_THE_CLOCK ->
                steps + ", more hours than had passed: is one of the two mistyped, or was the panel replaced?";
            case CONTRADICTED ->
                steps + (after == null ? "" : ", then at " + at(after))
                        + ": the one in between goes with neither; is it mistyped?";
        };
    }

    private static String at(PanelHours value) {
        return String.format(Locale.ROOT, "%.1f", value.hours()).replaceAll("\\.0$", "") + " h on " + day(value.at());
    }

    private static String day(Instant at) {
        return Days.of(at).toString();
    }
}
