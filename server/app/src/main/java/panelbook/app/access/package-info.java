/**
 * Who may do what: bearer tokens with a role, the rules of the contract by role, the actor of each change and the audit
 * log. What the others need of it is {@link panelbook.app.access.Caller}.
 */
@NullMarked
package panelbook.app.access;

import org.jspecify.annotations.NullMarked;
