/** Frozen cases, and what CP-SAT found of them; the model that found it is in src/reference. */
@NullMarked
package quadrille.reference;

import org.jspecify.annotations.NullMarked;
