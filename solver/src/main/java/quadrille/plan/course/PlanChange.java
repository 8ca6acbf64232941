package quadrille.plan.course;

import org.jspecify.annotations.Nullable;

/**
 * One difference between two plans of a course.
 *
 * @param visit the number of the visit that it concerns, of the old plan or the new one; null where
 *     it concerns the whole course
 * @param what changed, a sentence
 * @param why a sentence
 */
public record PlanChange(@Nullable Integer visit, String what, String why) {}
