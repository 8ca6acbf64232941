/**
 * What if: one mouth planned at several numbers of visits and under changed conditions, side by
 * side, and beside the rules of thumb by which such courses are usually laid out. Only the command
 * line comes in.
 *
 * <p>Begin with {@link quadrille.plan.scenario.Comparer}, which answers with a {@link
 * quadrille.plan.scenario.Comparison}.
 */
@NullMarked
package quadrille.plan.scenario;

import org.jspecify.annotations.NullMarked;
