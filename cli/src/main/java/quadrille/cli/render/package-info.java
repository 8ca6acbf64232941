/**
 * What people and programs read: courses, charts and findings as text of 80 columns or as JSON.
 * Everything here turns values into text and decides nothing.
 */
@NullMarked
package quadrille.cli.render;

import org.jspecify.annotations.NullMarked;
