package panelbook.app.fleet;

import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface PresetRows extends JpaRepository<PresetRow, UUID> {

    List<PresetRow> findByDisplayId(UUID displayId);

    List<PresetRow> findByDisplayIdIn(Collection<UUID> displayIds);
}
