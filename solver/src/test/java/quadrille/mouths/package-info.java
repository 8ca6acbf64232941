/**
 * Invented mouths for tests: seeded random ones whose shares follow published surveys, and hostile
 * ones that a program must survive. The same seed always gives the same mouth.
 */
@org.jspecify.annotations.NullMarked
package quadrille.mouths;
