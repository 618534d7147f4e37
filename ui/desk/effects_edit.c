// SPDX-License-Identifier: ISC
/* Effects where something is edited or typed: the second half of effects.h. */
#include "effects.h"

#include "asking.h"
#include "choosing.h"
#include "cursor.h"
#include "deleting.h"
#include "groove_saving.h"
#include "kept_slots.h"
#include "saving.h"
#include "typing.h"

/* ---- A row of the editor */

void effects_edit(Model* const model, const Press press)
{
    (void)press;
    cursor_enter(model);
}

/* All that was changed; who hasn't saved it before is asked for names. */
void effects_save_edits(Model* const model, const Press press)
{
    (void)press;
    saving_begin(model, true);
}

void effects_leave_row(Model* const model, const Press press)
{
    (void)press;
    cursor_leave(model);
}

void effects_go_step(Model* const model, const Press press)
{
    cursor_step(model, press.which);
}

void effects_go_end(Model* const model, const Press press)
{
    cursor_to_end(model, press.which);
}

void effects_move_stroke(Model* const model, const Press press)
{
    cursor_move(model, press.which);
}

void effects_louder(Model* const model, const Press press)
{
    cursor_louder(model, press.which);
}

void effects_level(Model* const model, const Press press)
{
    cursor_level(model, (Level)press.which);
}

void effects_cycle_level(Model* const model, const Press press)
{
    (void)press;
    cursor_cycle(model);
}

void effects_clear_step(Model* const model, const Press press)
{
    (void)press;
    cursor_clear(model);
}

void effects_next_voice(Model* const model, const Press press)
{
    cursor_voice(model, press.shift ? -1 : 1);
}

void effects_turn_page(Model* const model, const Press press)
{
    cursor_page(model, press.which);
}

void effects_leave_words(Model* const model, const Press press)
{
    (void)press;
    choosing_leave(model);
}

/* ---- Typing */

void effects_type_more(Model* const model, const Press press)
{
    typing_more(model, press.text);
}

void effects_type_less(Model* const model, const Press press)
{
    (void)press;
    typing_less(model);
}

void effects_keep_typed(Model* const model, const Press press)
{
    (void)press;
    typing_end(model);
    saving_named(model);
}

void effects_leave_typed(Model* const model, const Press press)
{
    (void)press;
    model_stop_typing(model);
    saving_leave(model);
}

/* ---- The question where */

void effects_ask_more(Model* const model, const Press press)
{
    asking_more(model, press.text);
}

void effects_ask_less(Model* const model, const Press press)
{
    (void)press;
    asking_less(model);
}

void effects_ask_complete(Model* const model, const Press press)
{
    (void)press;
    asking_complete(model);
}

void effects_ask_yes(Model* const model, const Press press)
{
    Asking* const asked = &model->view.asked;
    (void)press;
    switch (asked->what) {
    case ASKED_FOLDER:
        asking_yes(model);
        break;
    case ASKED_GROOVE:
        asked->is_open = !groove_saving_begin(model);
        break;
    case ASKED_KEPT:
        asked->is_open = false;
        kept_slots_name(model, asked->id, asked->name);
        break;
    case ASKED_DELETION:
        asked->is_open = false;
        deleting_yes(model);
        break;
    }
}

void effects_save_groove(Model* const model, const Press press)
{
    (void)press;
    groove_saving_ask(model);
}

void effects_delete(Model* const model, const Press press)
{
    (void)press;
    deleting_ask(model);
}

void effects_ask_no(Model* const model, const Press press)
{
    (void)press;
    asking_no(model);
}
