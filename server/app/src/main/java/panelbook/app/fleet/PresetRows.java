package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface PresetRows extends JpaRepository<PresetRow, UUID> {

    List<PresetRow> findByDisplayId(UUID displayId);
}
