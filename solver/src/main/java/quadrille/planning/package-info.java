/**
 * From chart and practice to a finished, audited course: the one door that commands and other
 * programs knock on, and the summary of a chart.
 */
@org.jspecify.annotations.NullMarked
package quadrille.planning;
