/**
 * The facts that a plan rests on, as values: {@code chart} holds a mouth, {@code practice} holds
 * what the practice owns, allows and prefers, {@code exchange} takes over charts of other programs.
 * Every wing but {@code document} may use them; they know nobody above.
 *
 * <p>Begin with {@link quadrille.facts.chart.Chart} and {@link quadrille.facts.practice.Practice}.
 */
package quadrille.facts;
