/**
 * The page: a practice's folder in a browser on its own machine. A small server on the loopback
 * address alone; rooms that answer requests and keep nothing that a file does not hold; the scripts
 * and the style sheet that the browser gets. What a room does, a command can do: both call the same
 * library.
 *
 * <p>Begin with {@link quadrille.cli.serve.PageServer}; {@link quadrille.cli.serve.Guard} says who
 * is answered at all.
 */
@NullMarked
package quadrille.cli.serve;

import org.jspecify.annotations.NullMarked;
