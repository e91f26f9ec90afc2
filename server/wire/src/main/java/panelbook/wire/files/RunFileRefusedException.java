package panelbook.wire.files;

/** Thrown by callers' choice ({@link RunFileResult#orElseThrow()}) when a run file was refused. */
public final class RunFileRefusedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final transient RunFileResult.Refused refused;

    RunFileRefusedException(RunFileResult.Refused refused) {
        super(refused.text().strip());
        this.refused = refused;
    }

    /** The problems. */
    public RunFileResult.Refused refused() {
        return refused;
    }
}
