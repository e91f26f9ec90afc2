package panelbook.app.fleet;

import java.util.Optional;
import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface FacilityRows extends JpaRepository<FacilityRow, UUID> {

    Optional<FacilityRow> findByName(String name);
}
