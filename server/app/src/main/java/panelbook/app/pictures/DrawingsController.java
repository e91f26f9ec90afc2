package panelbook.app.pictures;

import java.util.UUID;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.drawing.Drawings;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingName;
import panelbook.wire.Paper;

@RestController
class DrawingsController {

    private static final String PRESET = "/api/v1/presets/{id}";
    private static final String SVG = "image/svg+xml";
    private static final MediaType SVG_TYPE = MediaType.parseMediaType(SVG + ";charset=UTF-8");

    private final Pictures pictures;

    DrawingsController(Pictures pictures) {
        this.pictures = pictures;
    }

    /** What a chart of a preset shows, as data. */
    @GetMapping(PRESET + "/drawings/{name}")
    @AnswersAsOf
    Drawing presetDrawing(@PathVariable UUID id, @PathVariable DrawingName name) {
        return pictures.of(id, name);
    }

    /** The chart itself; its bytes are those on the board. */
    @GetMapping(path = PRESET + "/drawings/{name}.svg", produces = SVG)
    @AnswersAsOf
    ResponseEntity<String> presetDrawingDrawn(
            @PathVariable UUID id, @PathVariable DrawingName name, @RequestParam(defaultValue = "dark") Paper paper) {
        return svg(Drawings.svg(pictures.of(id, name), paper));
    }

    /** When peak luminance and white of a preset will have drifted out of tolerance, as a drawing. */
    @GetMapping(path = PRESET + "/forecast.svg", produces = SVG)
    @AnswersAsOf
    ResponseEntity<String> presetForecastDrawing(
            @PathVariable UUID id, @RequestParam(defaultValue = "dark") Paper paper) {
        var drawings = pictures.forecast(id);
        return svg(
                Drawings.svg("forecast-" + id, "Forecast of " + drawings.get(0).preset(), drawings, paper));
    }

    private static ResponseEntity<String> svg(String drawn) {
        return ResponseEntity.ok().contentType(SVG_TYPE).body(drawn);
    }
}
