package panelbook.app.database;

import jakarta.persistence.Id;
import jakarta.persistence.MappedSuperclass;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Refusal;

/** A row that people edit, one version after the other, until it is retired. */
@MappedSuperclass
public abstract class EditedRow {

    @Id
    private UUID id;

    /** Null until it is first written, which is how Spring Data knows a new row. */
    @Version
    private @Nullable Long version;

    private @Nullable Instant retiredAt;
    private @Nullable String retirementReason;

    /** For the mapper. */
    @SuppressWarnings("NullAway.Init")
    protected EditedRow() {}

    protected EditedRow(UUID id) {
        this.id = id;
    }

    public UUID id() {
        return id;
    }

    public boolean retired() {
        return retiredAt != null;
    }

    /** What people call it, e.g. {@code room "Grading 1"}. */
    protected abstract String called();

    /** Refuses an edit of a retired row or of another version than the one that was read. */
    public void mustBeAt(long expectedVersion) {
        mustBeInUse();
        Etags.match(expectedVersion, version == null ? 0 : version);
    }

    /** Refuses what a retired row cannot do. */
    public void mustBeInUse() {
        if (retired()) {
            throw Refusal.conflict("The " + called() + " is retired: its record stays as it is.");
        }
    }

    /** Takes it out of use; false when it was so already. */
    public boolean retire(Instant at, @Nullable String reason) {
        if (retired()) {
            return false;
        }
        retiredAt = at;
        retirementReason = reason;
        return true;
    }
}
