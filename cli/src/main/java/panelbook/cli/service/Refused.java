package panelbook.cli.service;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.FieldProblem;
import panelbook.wire.Problem;

/** The service understood and says no. */
public final class Refused extends Failure {

    private static final long serialVersionUID = 1L;

    private final transient Problem problem;

    Refused(Problem problem) {
        super(ExitCode.FAILED, text(problem), places(problem), null);
        this.problem = problem;
    }

    /** HTTP status. */
    public int status() {
        return problem.status();
    }

    /** What the service said. */
    public Problem problem() {
        return problem;
    }

    private static String text(Problem problem) {
        var next = switch (problem.status()) {
            case 401 -> " Log in again: panelbook log-in URL";
            case 403 -> " See who you are: panelbook who";
            case 412 -> " Look at it as it is now, then edit again.";
            default -> "";
        };
        return problem.detail() + next;
    }

    private static List<String> places(Problem problem) {
        var errors = errors(problem);
        // a single place is named in the detail already
        if (errors.size() == 1 && problem.detail().contains(errors.get(0).detail())) {
            return List.of();
        }
        return errors.stream().map(e -> e.pointer() + ": " + e.detail()).toList();
    }

    private static List<FieldProblem> errors(Problem problem) {
        @Nullable List<FieldProblem> errors = problem.errors();
        return errors == null ? List.of() : errors;
    }
}
