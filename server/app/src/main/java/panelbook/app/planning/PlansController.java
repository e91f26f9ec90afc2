package panelbook.app.planning;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.wire.Page;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.PlanEntry;

/** Plans. */
@RestController
class PlansController {

    private static final String PATH = "/api/v1/plans";

    private final Plans plans;

    PlansController(Plans plans) {
        this.plans = plans;
    }

    /** Makes a plan and proposes its visits, in the place of those proposed before; a dry run only answers. */
    @Adds
    @PostMapping(PATH)
    ResponseEntity<Plan> makePlan(@RequestBody PlanDraft draft) {
        var made = plans.make(draft);
        return draft.dryRun() ? ResponseEntity.ok(made.body()) : made.at(PATH + "/" + draft.id());
    }

    /** Plans that proposed visits, newest first. */
    @GetMapping(PATH)
    Page<PlanEntry> listPlans(@RequestParam(required = false) @Nullable UUID facility, Paging paging) {
        return plans.page(facility, paging);
    }

    /** A plan as it was when it was made. */
    @GetMapping(PATH + "/{id}")
    Plan getPlan(@PathVariable UUID id) {
        return plans.get(id);
    }
}
