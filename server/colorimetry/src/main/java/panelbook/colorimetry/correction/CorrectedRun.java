package panelbook.colorimetry.correction;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;

/**
 * The corrected readings of a run.
 *
 * @param readings in the order of the raw ones
 * @param remarks by patch, of those that have any
 */
public record CorrectedRun(List<Reading> readings, Map<Patch, Set<Corrected.Remark>> remarks) {
    public CorrectedRun {
        readings = List.copyOf(readings);
        remarks = Map.copyOf(remarks);
    }

    static CorrectedRun of(FourColourMatrix correction, List<Reading> raw) {
        List<Reading> readings = new ArrayList<>(raw.size());
        Map<Patch, Set<Corrected.Remark>> remarks = new LinkedHashMap<>();
        for (Reading r : raw) {
            Corrected corrected = correction.correct(r.xyz());
            readings.add(new Reading(r.patch(), corrected.xyz()));
            if (!corrected.remarks().isEmpty()) {
                remarks.put(r.patch(), corrected.remarks());
            }
        }
        return new CorrectedRun(readings, remarks);
    }
}
