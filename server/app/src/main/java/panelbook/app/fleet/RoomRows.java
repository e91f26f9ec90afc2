package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface RoomRows extends JpaRepository<RoomRow, UUID> {

    List<RoomRow> findByFacilityId(UUID facilityId);
}
