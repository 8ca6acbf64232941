/**
 * The exact method: where all passes of an area lie in one visit, the sets of areas that one visit
 * can hold are few. Each is priced once by an exact order of its steps, or between two bounds where
 * that would take too long; then the best choice of sets is computed for any number of visits.
 * Begin with {@link quadrille.plan.exact.ExactCourses}.
 */
@org.jspecify.annotations.NullMarked
package quadrille.plan.exact;
