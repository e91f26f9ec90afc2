package panelbook.app.sheet;

import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.RoomSheet;

@RestController
class SheetController {

    private final RoomSheets sheets;

    SheetController(RoomSheets sheets) {
        this.sheets = sheets;
    }

    /** Everything asked on arrival in a room; {@code instrument} names meters in hand by their ids. */
    @GetMapping("/api/v1/rooms/{id}/sheet")
    @AnswersAsOf
    RoomSheet roomSheet(@PathVariable UUID id, @RequestParam(required = false) @Nullable Set<UUID> instrument) {
        return sheets.of(id, instrument == null ? Set.of() : instrument);
    }
}
