package panelbook.app.corrections;

import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.wire.Correction;

/** Finds corrections of meters. */
@Component
public class CorrectionBook {

    private final CorrectionRows rows;

    CorrectionBook(CorrectionRows rows) {
        this.rows = rows;
    }

    /** A correction, withdrawn or not; empty when there is none. */
    public Optional<Correction> find(UUID id) {
        return rows.find(id);
    }
}
