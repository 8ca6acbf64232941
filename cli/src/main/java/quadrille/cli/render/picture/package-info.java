/**
 * The pictures of a course as plain values: what to draw, where, and the words that say the same.
 * Templates turn them into SVG; nothing here knows markup. All lengths are in the units of the
 * picture's own view box.
 */
@NullMarked
package quadrille.cli.render.picture;

import org.jspecify.annotations.NullMarked;
