// SPDX-License-Identifier: ISC
/* What of effects.h is about what is kept. */
#include "effects.h"

#include "asking.h"
#include "kept_slots.h"
#include "shortlist.h"

void effects_keep(Model* const model, const Press press)
{
    (void)press;
    kept_slots_keep(model);
}

void effects_drop_kept(Model* const model, const Press press)
{
    (void)press;
    kept_slots_drop_or_back(model);
}

void effects_play_kept(Model* const model, const Press press)
{
    kept_slots_play(model, model->view.kept.lot + press.which);
    shortlist_stand(model);
}

void effects_swap_kept(Model* const model, const Press press)
{
    (void)press;
    kept_slots_swap(model);
    shortlist_stand(model);
}

void effects_other_kept(Model* const model, const Press press)
{
    (void)press;
    kept_slots_other_lot(model);
}

void effects_hand_out(Model* const model, const Press press)
{
    (void)press;
    asking_hand_out(model);
}

/* Of the row that has the keys, or of what plays. */
void effects_name_kept(Model* const model, const Press press)
{
    const int slot = press.which ? model->view.focus.index + 1 : (int)model_kept(model);
    const KeptSelection* const kept = kept_list_at(model->kept, (uint32_t)slot);
    if (kept) {
        asking_kept(model, slot, kept->name);
    } else if (press.which) {
        kept_slots_name(model, slot, ""); /* says why not */
    } else {
        model_say(model, "Nothing that is kept plays: Shift and a number play what is to be named");
    }
}
