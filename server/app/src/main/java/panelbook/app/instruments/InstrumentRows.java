package panelbook.app.instruments;

import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface InstrumentRows extends JpaRepository<InstrumentRow, UUID> {}
