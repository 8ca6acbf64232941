/**
 * A finished course of visits: what is done when, with which injections and doses, and how it is
 * written to and read from a plan file. A course holds plain values and names, so that it can be
 * read without the practice that made it.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.course;
