/**
 * What all REST controllers share: refusals and their problem details, paging, ETags, words of the contract in
 * parameters. It knows nothing of the domain.
 */
@NullMarked
package panelbook.app.rest;

import org.jspecify.annotations.NullMarked;
