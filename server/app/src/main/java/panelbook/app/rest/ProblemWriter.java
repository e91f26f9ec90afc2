package panelbook.app.rest;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** Answers with a problem where no controller is reached. */
@Component
public class ProblemWriter {

    private final JsonMapper json;

    ProblemWriter(JsonMapper json) {
        this.json = json;
    }

    /** Writes the problem of {@code refusal} with its status. */
    public void write(HttpServletResponse response, Refusal refusal) throws IOException {
        response.setStatus(refusal.kind().status());
        response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
        response.getOutputStream().write(json.writeValueAsBytes(Problems.of(refusal)));
    }
}
