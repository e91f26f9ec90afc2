package panelbook.app.fleet;

import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface RoomRows extends JpaRepository<RoomRow, UUID> {}
