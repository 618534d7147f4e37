// SPDX-License-Identifier: ISC
/* incoming.h - what the host and the plugin say becomes what is shown. */
#pragma once

#include "model.h"

/* A port's value, or an atom of the plugin's; trusts none. */
void incoming_port_event(Model* model, uint32_t port, uint32_t size, uint32_t format,
                         const void* buffer);
