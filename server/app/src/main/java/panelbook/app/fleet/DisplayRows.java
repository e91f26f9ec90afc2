package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface DisplayRows extends JpaRepository<DisplayRow, UUID> {

    List<DisplayRow> findByFacilityId(UUID facilityId);
}
