package panelbook.app.runs;

import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** What requests that put something right were answered with, so that a repeat gets the same. */
@Component
public class MendingAnswers {

    private final JdbcClient jdbc;
    private final JsonMapper json;

    MendingAnswers(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Keeps the answer for what was put right: a run, a match or a display. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void keep(UUID subjectId, Object answer) {
        jdbc.sql("insert into mending_answer (subject_id, answer) values (:id, :answer::jsonb)")
                .param("id", subjectId)
                .param("answer", json.writeValueAsString(answer))
                .update();
    }

    /** The answer that was kept. */
    public <T> T of(UUID subjectId, Class<T> type) {
        return json.readValue(
                jdbc.sql("select answer from mending_answer where subject_id = :id")
                        .param("id", subjectId)
                        .query(String.class)
                        .single(),
                type);
    }
}
