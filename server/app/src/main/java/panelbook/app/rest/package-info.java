/**
 * What all REST controllers share: refusals and their problem details, checks of what comes in, paging, ETags, words of
 * the contract in JSON and in parameters. It knows nothing of the domain.
 */
@ApplicationModule(type = ApplicationModule.Type.OPEN)
@NullMarked
package panelbook.app.rest;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
