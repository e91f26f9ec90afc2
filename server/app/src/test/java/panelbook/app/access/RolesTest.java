package panelbook.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Operations;
import panelbook.app.testing.Operations.Operation;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Role;

/** Every operation for every role. */
class RolesTest extends ServiceTest {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    /** E engineer, C calibrator, M manager, P probe. An operation that is not listed here fails the test. */
    private static final String TABLE = """
            GET /identity                       ECMP
            POST /tokens                        E
            GET /tokens                         E
            POST /tokens/{id}/revocation        E
            POST /accounts                      E
            GET /accounts                       E
            GET /accounts/{id}                  E
            POST /accounts/{id}/password        E
            POST /accounts/{id}/retirement      E
            GET /audit-entries                  EM
            POST /facilities                    E
            GET /facilities                     ECMP
            GET /facilities/{id}                ECMP
            PUT /facilities/{id}                E
            POST /facilities/{id}/retirement    E
            GET /facilities/{id}/book           ECM
            GET /facilities/{id}/readiness      ECM
            POST /books                         E
            POST /rooms                         E
            GET /rooms                          ECMP
            GET /rooms/{id}                     ECMP
            PUT /rooms/{id}                     E
            POST /rooms/{id}/retirement         E
            GET /rooms/{id}/heroes              ECM
            POST /rooms/{id}/heroes             E
            GET /rooms/{id}/trims               ECM
            GET /rooms/{id}/readiness           ECM
            GET /rooms/{id}/readiness-history   ECM
            GET /rooms/{id}/sheet               ECM
            POST /rooms/{id}/proofs             ECM
            GET /rooms/{id}/proofs              ECM
            GET /proofs/{id}                    ECM
            GET /proofs/{id}/content            ECM
            GET /proofs/{id}/file               ECM
            POST /proof-checks                  ECMP
            POST /rooms/{id}/booking-sources    E
            GET /rooms/{id}/booking-sources     ECM
            GET /rooms/{id}/bookings            ECM
            GET /booking-sources                ECM
            GET /booking-sources/{id}           ECM
            PUT /booking-sources/{id}/calendar  E
            POST /booking-sources/{id}/fetch    E
            POST /booking-sources/{id}/retirement E
            POST /calendar-feeds                E
            GET /calendar-feeds                 ECM
            POST /calendar-feeds/{id}/revocation E
            POST /panel-hours                   EC
            GET /panel-hours-questions          ECM
            GET /panel-hours-questions/{id}     ECM
            POST /panel-hours-questions/{id}/answer EC
            POST /displays                      E
            GET /displays                       ECMP
            GET /displays/{id}                  ECMP
            PUT /displays/{id}                  E
            POST /displays/{id}/retirement      E
            POST /displays/{id}/moves           E
            POST /displays/{id}/merger          E
            GET /displays/{id}/stays            ECM
            GET /displays/{id}/panel-hours      ECM
            POST /displays/{id}/panel-hours     EC
            GET /displays/{id}/quirks           ECM
            POST /displays/{id}/quirks          EC
            POST /quirks/{id}/settlement        EC
            POST /presets                       E
            GET /presets                        ECMP
            GET /presets/{id}                   ECMP
            PUT /presets/{id}                   E
            POST /presets/{id}/retirement       E
            GET /presets/{id}/baselines         ECM
            POST /presets/{id}/baselines        EC
            GET /presets/{id}/findings          ECM
            GET /presets/{id}/forecast          ECM
            GET /presets/{id}/forecast.svg      ECM
            GET /presets/{id}/drawings/{name}   ECM
            GET /presets/{id}/drawings/{name}.svg ECM
            GET /due                            ECM
            POST /targets                       E
            GET /targets                        ECMP
            GET /targets/{id}                   ECMP
            PUT /targets/{id}                   E
            POST /targets/{id}/retirement       E
            POST /tolerance-sets                E
            GET /tolerance-sets                 ECMP
            GET /tolerance-sets/{id}            ECMP
            PUT /tolerance-sets/{id}            E
            POST /tolerance-sets/{id}/retirement E
            POST /instruments                   E
            GET /instruments                    ECMP
            GET /instruments/{id}               ECMP
            PUT /instruments/{id}               E
            POST /instruments/{id}/retirement   E
            POST /instruments/{id}/certificates E
            GET /instruments/{id}/certificates  ECM
            POST /instruments/{id}/corrections  EC
            GET /instruments/{id}/corrections   ECM
            POST /instruments/{id}/corrections/preview EC
            POST /instruments/{id}/corrections/{correction}/withdrawal EC
            POST /runs                          ECP
            GET /runs                           ECM
            GET /runs/{id}                      ECM
            GET /runs/{id}/verdict              ECMP
            GET /runs/{id}/findings             ECM
            GET /runs/{id}/diagnosis            ECM
            GET /runs/{id}/readings             ECM
            POST /runs/{id}/withdrawal          EC
            POST /matches                       EC
            GET /matches                        ECM
            GET /matches/{id}                   ECM
            POST /match-stories                 EC
            GET /match-stories                  ECM
            GET /match-stories/{id}             ECM
            POST /match-stories/{id}/steps      EC
            POST /match-stories/{id}/sign-off   EC
            POST /match-stories/{id}/giving-up  EC
            GET /match-stories/{id}/restoration ECM
            GET /matches/{id}/restoration       ECM
            GET /displays/{id}/control-ranges   ECM
            POST /displays/{id}/control-ranges  EC
            GET /displays/{id}/click-effects    ECM
            GET /trim-suggestions               ECM
            POST /advice                        EC
            GET /advice                         ECM
            GET /advice/{id}                    ECM
            PUT /advice/{id}                    EC
            POST /advice/{id}/retirement        EC
            POST /matches/{id}/withdrawal       EC
            POST /calibrators                   E
            GET /calibrators                    ECM
            GET /calibrators/{id}               ECM
            PUT /calibrators/{id}               E
            POST /calibrators/{id}/retirement   E
            POST /calibrators/{id}/absences     E
            GET /calibrators/{id}/absences      ECM
            POST /absences/{id}/cancellation    E
            POST /holidays                      E
            GET /holidays                       ECM
            POST /holidays/{id}/cancellation    E
            GET /travel-times                   ECM
            PUT /travel-times/{one}/{other}     E
            GET /work-durations                 ECM
            PUT /work-durations                 E
            GET /rooms/{id}/planning            ECM
            PUT /rooms/{id}/planning            E
            POST /plans                         E
            GET /plans                          ECM
            GET /plans/{id}                     ECM
            POST /visits                        EC
            GET /visits                         ECM
            GET /visits/{id}                    ECM
            POST /visits/{id}/confirmation      EC
            POST /visits/{id}/move              EC
            POST /visits/{id}/pin               EC
            POST /visits/{id}/done              EC
            POST /visits/{id}/drop              EC
            GET /alerts                         ECM
            GET /alerts/{id}                    ECM
            POST /alerts/{id}/acknowledgement   EC
            POST /alerts/{id}/closure           EC
            GET /alerts/stream                  ECM
            GET /alerts/{id}/notifications      ECM
            POST /quiet-periods                 EC
            GET /quiet-periods                  ECM
            POST /quiet-periods/{id}/end        EC
            POST /channels                      E
            GET /channels                       E
            GET /channels/{id}                  E
            PUT /channels/{id}                  E
            POST /channels/{id}/retirement      E
            POST /channels/{id}/test            E
            GET /channels/{id}/deliveries       E
            GET /facilities/{id}/notification-settings ECM
            PUT /facilities/{id}/notification-settings E
            """;

    @Test
    void everyRoleMayDoWhatTheContractSaysAndNothingElse() {
        var table = table();
        var operations = Operations.of(nobody().get("/v3/api-docs").expect(200).tree());
        assertThat(operations.stream().map(Operation::toString))
                .as("every operation stands in the table")
                .containsExactlyInAnyOrderElementsOf(table.keySet());
        for (var operation : operations) {
            for (var role : Role.values()) {
                var allowed = table.get(operation.toString()).contains(role);
                assertThat(status(operation, role) != 403)
                        .as("%s as %s is %s", operation, role, allowed ? "allowed" : "forbidden")
                        .isEqualTo(allowed);
            }
        }
    }

    @Test
    void metricsAreForEngineersAndManagersAndHealthIsForAll() {
        assertThat(nobody().get("/actuator/health").expect(200).text()).contains("UP");
        nobody().get("/actuator/prometheus").expect(401);
        as(Role.CALIBRATOR).get("/actuator/prometheus").expect(403);
        assertThat(as(Role.MANAGER).get("/actuator/prometheus").expect(200).text())
                .contains("http_server_requests_seconds");
        engineer().get("/actuator/env").expect(403);
    }

    private static Map<String, Set<Role>> table() {
        var table = new TreeMap<String, Set<Role>>();
        TABLE.lines().forEach(line -> {
            var parts = line.strip().split(" +", -1);
            var roles = EnumSet.noneOf(Role.class);
            for (var role : Role.values()) {
                if (parts[2].indexOf(role.name().charAt(0)) >= 0) {
                    roles.add(role);
                }
            }
            table.put(parts[0] + " /api/v1" + parts[1], roles);
        });
        return table;
    }

    private int status(Operation operation, Role role) {
        var request = HttpRequest.newBuilder(nobody().uri(operation.anywhere()))
                .header("Authorization", "Bearer " + as(role).token())
                .header("Content-Type", "application/json")
                .method(
                        operation.method(),
                        operation.method().equals("GET")
                                ? HttpRequest.BodyPublishers.noBody()
                                : HttpRequest.BodyPublishers.ofString("{}"))
                .build();
        try {
            // the body of an event stream never ends: only the status is waited for
            var response = CLIENT.send(request, HttpResponse.BodyHandlers.ofInputStream());
            response.body().close();
            return response.statusCode();
        } catch (IOException | InterruptedException failed) {
            throw new AssertionError(operation + " as " + role, failed);
        }
    }
}
