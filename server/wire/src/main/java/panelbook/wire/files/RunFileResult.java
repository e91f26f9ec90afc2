package panelbook.wire.files;

import java.util.List;

/** What reading a run file gave: the run, or everything that is wrong. A file with any problem is refused whole. */
public sealed interface RunFileResult {

    /**
     * The file was read.
     *
     * @param run what it holds
     * @param format how it was written
     * @param remarks what does not stand in the way but a person should know, one line each; usually empty
     */
    record Read(RunFile run, RunFileFormat format, List<String> remarks) implements RunFileResult {
        public Read {
            remarks = List.copyOf(remarks);
        }
    }

    /**
     * The file was refused.
     *
     * @param problems the first problems, in the order in which they were met; never empty
     * @param total number of problems that were met, listed or not; a reader that gave up early met those before
     */
    record Refused(List<RunFileProblem> problems, long total) implements RunFileResult {
        public Refused {
            problems = List.copyOf(problems);
            if (problems.isEmpty() || total < problems.size()) {
                throw new IllegalArgumentException("a refusal names at least one problem and counts all");
            }
        }

        /** Problems that were met and are not in the list. */
        public long unlisted() {
            return total - problems.size();
        }

        /** All listed problems, one a line, and a last line {@code and N more} when there are more. */
        public String text() {
            StringBuilder text = new StringBuilder();
            for (RunFileProblem problem : problems) {
                text.append(problem.text()).append('\n');
            }
            if (unlisted() > 0) {
                text.append("and ").append(unlisted()).append(" more\n");
            }
            return text.toString();
        }
    }

    /**
     * The run.
     *
     * @throws RunFileRefusedException when the file was refused, with every listed problem in its message
     */
    default RunFile orElseThrow() {
        if (this instanceof Read read) {
            return read.run();
        }
        throw new RunFileRefusedException((Refused) this);
    }
}
