/**
 * A finished course of visits: what is done when, with which injections and doses, and how it is
 * written to and read from a plan file. It can be read without the practice that made it. Diary and
 * treatment may come in.
 *
 * <p>Begin with {@link quadrille.plan.course.Course}; {@link quadrille.plan.course.PlanWriter} and
 * {@link quadrille.plan.course.PlanReader} are its file.
 */
@NullMarked
package quadrille.plan.course;

import org.jspecify.annotations.NullMarked;
