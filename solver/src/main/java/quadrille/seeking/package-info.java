/** How someone outside ends a search early; every room that seeks may know it. */
@NullMarked
package quadrille.seeking;

import org.jspecify.annotations.NullMarked;
