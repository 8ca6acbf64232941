/**
 * The second reading: takes a finished course, the chart and the practice, works out clock times,
 * doses, numbness and sums again from the plain facts, and lists what is broken. It shares no
 * reckoning with the solver nor with the anaesthesia that feeds it.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.audit;
