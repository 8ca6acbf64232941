/**
 * Chart and practice to work: the steps of a mouth, each with its insert, its seconds and what must
 * be numb.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.work;
