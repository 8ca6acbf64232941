/**
 * Local anaesthesia: the cheapest injections for what must be numb, which agents a patient may
 * have, doses against maximum doses, onset and lasting. Knows chart, practice and the targets of
 * the work; the audit may not come in.
 *
 * <p>Begin with {@link quadrille.plan.anaesthesia.CheapestCover} and {@link
 * quadrille.plan.anaesthesia.Doses}.
 */
@NullMarked
package quadrille.plan.anaesthesia;

import org.jspecify.annotations.NullMarked;
