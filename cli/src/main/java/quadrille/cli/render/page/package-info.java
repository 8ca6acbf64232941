/**
 * A course as a page that people look at: beside the chair, at the desk, in the patient's hand.
 * Classes here say what stands on the page; the templates in src/main/jte say how it looks.
 */
@NullMarked
package quadrille.cli.render.page;

import org.jspecify.annotations.NullMarked;
