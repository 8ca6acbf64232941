/**
 * The practice's diary: who works when and may do what, chairs, closed days, sterile sets, what is
 * booked, and what courses still ask for; its file; and which times are free. Decides nothing.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.book;
