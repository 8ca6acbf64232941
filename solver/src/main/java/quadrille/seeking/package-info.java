/**
 * How someone outside ends a search early. Knows nothing of what is sought; every room that seeks
 * may use it.
 *
 * <p>Begin with {@link quadrille.seeking.SearchStop}.
 */
@NullMarked
package quadrille.seeking;

import org.jspecify.annotations.NullMarked;
