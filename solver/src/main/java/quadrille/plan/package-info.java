/**
 * From chart and practice to an audited course. {@code work} says what is due, {@code anaesthesia}
 * how it is made numb, {@code course} is what comes out; {@code visit} evaluates one visit, {@code
 * bound} proves what no course can go below, {@code exact} finds the best course where sets of
 * areas are few, {@code staging} seeks; {@code audit} reads a course a second time, {@code
 * planning} puts these together, {@code scenario} holds courses side by side. The wings above use
 * {@code course} and {@code planning}; the diary knows {@code course} only.
 *
 * <p>Begin with {@link quadrille.plan.planning.ChartPlan}.
 */
package quadrille.plan;
