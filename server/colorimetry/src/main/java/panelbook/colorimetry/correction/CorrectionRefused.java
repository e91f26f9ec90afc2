package panelbook.colorimetry.correction;

import java.util.List;
import java.util.stream.Collectors;

/** Pairs of readings that make no correction, with everything that is wrong with them. */
public final class CorrectionRefused extends IllegalArgumentException {
    private static final long serialVersionUID = 1;

    private final transient List<Fault> faults;

    CorrectionRefused(List<Fault> faults) {
        super(faults.stream().map(Fault::message).collect(Collectors.joining("; ")));
        this.faults = List.copyOf(faults);
    }

    /**
     * All that is wrong.
     *
     * @return at least one fault
     */
    public List<Fault> faults() {
        return faults;
    }
}
