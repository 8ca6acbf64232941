/**
 * The staging problem written a second time, for CP-SAT, from the words of the problem alone: what
 * a general exact solver makes of it. Shares nothing with {@code quadrille.staging} or {@code
 * quadrille.anaesthesia}.
 */
@NullMarked
package quadrille.reference;

import org.jspecify.annotations.NullMarked;
