/**
 * The practice's diary: who works when and may do what, chairs, closed days, sterile sets, what is
 * booked, what courses still ask for, and which times are free. Decides nothing. Knows the calendar
 * and a finished course.
 *
 * <p>Begin with {@link quadrille.diary.book.Diary}; {@link quadrille.diary.book.FreeTimes} says
 * what is free.
 */
@NullMarked
package quadrille.diary.book;

import org.jspecify.annotations.NullMarked;
