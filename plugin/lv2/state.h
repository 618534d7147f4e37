// SPDX-License-Identifier: ISC
/* state.h - what a host keeps of an instance besides its control ports: the
   session's texts, each under its term as an atom:String.  Nothing is stored that
   is empty.  Others' threads, at any time. */
#pragma once

#include "worker.h"
#include "../talk/uris.h"

#include <lv2/state/state.h>

LV2_State_Status state_save(Worker* worker, const Uris* uris, LV2_State_Store_Function store,
                            LV2_State_Handle handle);

/* What is absent, or isn't a text, is empty. */
LV2_State_Status state_restore(Worker* worker, const Uris* uris,
                               LV2_State_Retrieve_Function retrieve, LV2_State_Handle handle);
