package panelbook.app.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Role;
import panelbook.wire.Token;
import panelbook.wire.TokenDraft;

/** What holds for every request, shown on the tokens. */
class RequestsTest extends ServiceTest {

    @ParameterizedTest(name = "{0} -> {1}: {2}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        {"holder": "A", "role": "probe"}                                          | /id        | missing or null
        {"id": null, "holder": "A", "role": "probe"}                              | /id        | missing or null
        {"id": "7", "holder": "A", "role": "probe"}                               | /id        | "7" is not a UUID
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": 4, "role": "probe"}   | /holder    | is not a text
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": "A", "role": "boss"}  | /role      | "boss" is none of: engineer, calibrator, manager, probe
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": "A", "role": 1}       | /role      | none of
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": "A", "role": "probe", "expires": "x"}   | /expires   | known are: expiresAt, holder, id, role
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": "A", "role": "probe", "expiresAt": "tomorrow"}   | /expiresAt   | is not a time in UTC
        {"id": "5f0c3b1e-1111-4111-8111-000000000001", "holder": "A" "role": "probe"}  | ``         | (line 1, column
        []                                                                        | ``         | Must be an object
        """)
    void aWrongBodyIsRefusedWithThePlaceAndWhatIsWanted(String body, String pointer, String words) {
        var problem = engineer().postJson("/tokens", body).expect(400).problem();

        assertThat(problem.type()).isEqualTo("/problems/invalid");
        assertThat(problem.errors()).singleElement().satisfies(error -> {
            assertThat(error.pointer()).isEqualTo(pointer);
            assertThat(error.detail()).contains(words);
        });
    }

    @Test
    void aMissingBodyIsRefused() {
        assertThat(engineer().post("/tokens").expect(400).problem().detail()).contains("body is missing");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "/tokens?limit=0, limit, 1 to 500",
        "/tokens?limit=501, limit, 1 to 500",
        "/tokens?limit=many, limit, 1 to 500",
        "/tokens?after=%21, after, not of this list",
        "/tokens?after=YWJj, after, not of this list",
        "/tokens?retierd=true, retierd, known are after",
        "/identity?x=1, x, none are known",
    })
    void aWrongParameterIsRefusedByName(String path, String parameter, String words) {
        var problem = engineer().get(path).expect(400).problem();

        assertThat(problem.errors()).singleElement().satisfies(error -> {
            assertThat(error.pointer()).isEqualTo(parameter);
            assertThat(error.detail()).contains(words);
        });
    }

    @Test
    void anUnknownPathOrMethodIsAProblemToo() {
        assertThat(engineer().get("/nothing-here").expect(404).problem().type()).isEqualTo("/problems/not-found");
        assertThat(engineer()
                        .send("DELETE", "/tokens", null, List.of())
                        .expect(405)
                        .problem()
                        .type())
                .isEqualTo("/problems/method-not-allowed");
        assertThat(engineer()
                        .send("POST", "/tokens/not-an-id/revocation", null, List.of())
                        .expect(400)
                        .problem()
                        .errors())
                .extracting("pointer")
                .containsExactly("id");
    }

    @Test
    void whatTheContainerRefusesIsAProblemToo() {
        assertThat(engineer().get("/api/v1//tokens").expect(400).problem().type())
                .isEqualTo("/problems/bad-request");
        var wrongType = engineer()
                .send("POST", "/tokens", null, List.of("Content-Type", "text/plain"))
                .expect(415);
        assertThat(wrongType.problem().detail()).contains("not supported");
    }

    @Test
    void pagesWalkEveryRowOnceWhileRowsAreAdded() {
        for (var i = 0; i < 7; i++) {
            newToken(Role.PROBE, "Walked " + i);
        }
        var before = engineer().all("/tokens?limit=500", Token.class);
        var walked = new java.util.ArrayList<UUID>();
        var page = engineer().get("/tokens?limit=3").asPageOf(Token.class);
        while (true) {
            page.items().forEach(token -> walked.add(token.id()));
            if (page.next() == null) {
                break;
            }
            if (walked.size() < 12) {
                engineer().post("/tokens", new TokenDraft(UUID.randomUUID(), "Late", Role.PROBE, null));
            }
            page = engineer().get("/tokens?limit=3&after=" + page.next()).asPageOf(Token.class);
        }
        assertThat(walked)
                .doesNotHaveDuplicates()
                .containsAll(before.stream().map(Token::id).toList());
    }
}
