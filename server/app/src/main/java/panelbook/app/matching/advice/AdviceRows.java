package panelbook.app.matching.advice;

import java.util.UUID;
import org.springframework.data.jpa.repository.JpaRepository;

interface AdviceRows extends JpaRepository<AdviceRow, UUID> {}
