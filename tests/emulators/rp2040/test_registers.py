"""The RP2040 port's register addresses and bits, against those that rp2040py has from elsewhere."""

from __future__ import annotations

import re

from rp2040py import irq, sio
from rp2040py.peripherals import clocks, ppb, psm, reset, timer, usb, watchdog, xosc

from matrixgen.resources import resource

HEADER = resource("templates") / "firmware" / "ports" / "rp2040" / "registers.h"
USB, RESETS, PSM, CLOCKS = 0x50110000, 0x4000C000, 0x40010000, 0x40008000
XOSC, WATCHDOG, TIMER, SIO, NVIC = 0x40024000, 0x40058000, 0x40054000, 0xD0000000, 0xE000E000

ADDRESSES = {
    "RESETS_RESET": RESETS + reset.RESET,
    "RESETS_DONE": RESETS + reset.RESET_DONE,
    "PSM_WDSEL": PSM + psm.WDSEL,
    "CLK_REF_CTRL": CLOCKS + clocks.CLK_REF_CTRL,
    "CLK_REF_SELECTED": CLOCKS + clocks.CLK_REF_SELECTED,
    "CLK_SYS_CTRL": CLOCKS + clocks.CLK_SYS_CTRL,
    "CLK_SYS_SELECTED": CLOCKS + clocks.CLK_SYS_SELECTED,
    "CLK_USB_CTRL": CLOCKS + clocks.CLK_USB_CTRL,
    "XOSC_CTRL": XOSC + xosc.XOSC_CTRL,
    "XOSC_STATUS": XOSC + xosc.XOSC_STATUS,
    "XOSC_STARTUP": XOSC + xosc.XOSC_STARTUP,
    "WATCHDOG_CTRL": WATCHDOG + watchdog.CTRL,
    "WATCHDOG_LOAD": WATCHDOG + watchdog.LOAD,
    "WATCHDOG_REASON": WATCHDOG + watchdog.REASON,
    "WATCHDOG_TICK": WATCHDOG + watchdog.TICK,
    "TIMER_ALARM0": TIMER + timer.ALARM0,
    "TIMER_ARMED": TIMER + timer.ARMED,
    "TIMER_TIMERAWL": TIMER + timer.TIMERAWL,
    "TIMER_INTR": TIMER + timer.INTR,
    "TIMER_INTE": TIMER + timer.INTE,
    "SIO_GPIO_IN": SIO + sio.GPIO_IN,
    "SIO_GPIO_OUT": SIO + sio.GPIO_OUT,
    "SIO_GPIO_OUT_SET": SIO + sio.GPIO_OUT_SET,
    "SIO_GPIO_OUT_CLR": SIO + sio.GPIO_OUT_CLR,
    "SIO_GPIO_OE": SIO + sio.GPIO_OE,
    "SIO_GPIO_OE_SET": SIO + sio.GPIO_OE_SET,
    "SIO_GPIO_OE_CLR": SIO + sio.GPIO_OE_CLR,
    "NVIC_ISER": NVIC + ppb.NVIC_ISER,
    "NVIC_ICER": NVIC + ppb.NVIC_ICER,
    "USB_ADDR_ENDP": USB + usb.ADDR_ENDP,
    "USB_MAIN_CTRL": USB + usb.MAIN_CTRL,
    "USB_SOF_RD": USB + usb.SOF_RD,
    "USB_SIE_CTRL": USB + usb.SIE_CTRL,
    "USB_SIE_STATUS": USB + usb.SIE_STATUS,
    "USB_BUFF_STATUS": USB + usb.BUFF_STATUS,
    "USB_EP_STALL_ARM": USB + usb.EP_STALL_ARM,
    "USB_MUXING": USB + usb.USB_MUXING,
    "USB_PWR": USB + usb.USB_PWR,
    "USB_INTE": USB + usb.INTE,
}
BITS = {
    "RESET_IO_BANK0": reset.RESET_IO_BANK0,
    "RESET_PADS_BANK0": reset.RESET_PADS_BANK0,
    "RESET_TIMER": reset.RESET_TIMER,
    "RESET_USBCTRL": reset.RESET_USBCTRL,
    "PSM_ALL": psm.PSM_BITS_MASK,
    "PSM_XOSC": psm.WDSEL_XOSC,
    "XOSC_STABLE": xosc.STATUS_STABLE,
    "WATCHDOG_ENABLE": watchdog.ENABLE,
    "WATCHDOG_TICK_ENABLE": watchdog.TICK_ENABLE,
    "TIMER_IRQ_0": 1 << irq.IRQ.TIMER_0,
    "USBCTRL_IRQ": 1 << irq.IRQ.USBCTRL,
    "USB_ENDPOINT_ENABLE": usb.EP_CTRL_ENABLE_BITS,
    "USB_ENDPOINT_STATUS_PER_BUFFER": usb.USB_CTRL_INTERRUPT_PER_TRANSFER,
    "USB_BUFFER_FULL": usb.USB_BUF_CTRL_FULL,
    "USB_BUFFER_DATA1": usb.USB_BUF_CTRL_DATA1_PID,
    "USB_BUFFER_AVAILABLE": usb.USB_BUF_CTRL_AVAILABLE,
    "USB_BUFFER_LENGTH": usb.USB_BUF_CTRL_LEN_MASK,
    "USB_CONTROLLER_EN": usb.CONTROLLER_EN,
    "USB_SIE_EP0_INT_1BUF": usb.SIE_CTRL_EP0_INT_1BUF,
    "USB_SIE_PULLUP_EN": usb.SIE_CTRL_PULLUP_EN,
    "USB_SIE_RESUME": usb.SIE_CTRL_RESUME,
    "USB_STATUS_BUS_RESET": usb.SIE_BUS_RESET,
    "USB_STATUS_SETUP_REC": usb.SIE_SETUP_REC,
    "USB_STATUS_RESUME": usb.SIE_RESUME,
    "USB_STATUS_SUSPENDED": usb.SIE_SUSPENDED,
    "USB_MUXING_SOFTCON": usb.SOFTCON,
    "USB_MUXING_TO_PHY": usb.TO_PHY,
    "USB_PWR_VBUS_DETECT": usb.PWR_VBUS_DETECT,
    "USB_PWR_VBUS_DETECT_OVERRIDE": usb.PWR_VBUS_DETECT_OVERRIDE_EN,
    "USB_INT_SOF": usb.INTR_DEV_SOF,
    "USB_INT_SETUP": usb.INTR_SETUP_REQ,
    "USB_INT_RESUME": usb.INTR_DEV_RESUME_FROM_HOST,
    "USB_INT_BUS_RESET": usb.INTR_BUS_RESET,
}


def test_addresses_are_those_of_the_emulators_map() -> None:
    text = HEADER.read_text()
    found = re.findall(r"^#define (\w+) REGISTER\(0x([0-9A-F]+)u\)", text, re.MULTILINE)
    ours = {name: int(value, 16) for name, value in found}
    assert ours == ADDRESSES


def test_bits_are_those_of_the_emulators_map() -> None:
    found = re.findall(
        r"^#define (\w+) \(?((?:0x)?[0-9A-F]+)u(?: << (\d+))?\)?", HEADER.read_text(), re.M
    )
    ours = {name: int(value, 0) << int(shift or 0) for name, value, shift in found}
    assert {name: ours[name] for name in BITS} == BITS
