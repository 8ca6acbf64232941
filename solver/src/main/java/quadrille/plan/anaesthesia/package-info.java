/**
 * Local anaesthesia: the cheapest injections for what must be numb, which agents a patient may
 * have, doses against maximum doses, onset and lasting. Knows chart, practice and the targets of
 * the work.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.anaesthesia;
